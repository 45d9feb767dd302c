package leat.diagnose;

import java.util.List;
import leat.signal.Keyword;

/**
 * Something that a person can look at to tell causes apart. Minutes are common practice, no source.
 * Keys are part of JSON: never rename one.
 */
public enum Check {
    /** With the jet off and the booster on for 10 s: does the level come back to what is set? */
    JET_OFF(2, Toll.LOOK, Answer.RECOVERS, Answer.STAYS_LOW),
    /** With the guard on: does the pump's shaft turn, the way of the arrow? */
    SHAFT(1, Toll.LOOK, Answer.SHAFT_TURNS, Answer.SHAFT_WRONG),
    /** Is the hand valve upstream fully open? */
    SUPPLY_VALVE(1, Toll.LOOK, Answer.SUPPLY_OPEN, Answer.SUPPLY_NOT_OPEN),
    /** At a tap before the strainer, while the machine draws: is the house pressure as usual? */
    HOUSE_PRESSURE(5, Toll.LOOK, Answer.HOUSE_GOOD, Answer.HOUSE_LOW),
    /** Shut-off valve open, booster off: inlet and boosted gauge should read alike. */
    BOTH_GAUGES(6, Toll.LOOK, Answer.GAUGES_AGREE, Answer.GAUGES_DIFFER),
    /** At rest, with the hand valve upstream shut: does the boosted pressure fall to 0? */
    HAND_VALVE(4, Toll.LOOK, Answer.FALLS_TO_ZERO, Answer.STAYS_UP),
    /** At rest, let the pressure out once at a drain: does it come back within a minute? */
    RELIEVE(5, Toll.HANDLED, Answer.COMES_BACK, Answer.STAYS_DOWN),
    /** With the line at the boosted gauge open to the air: does it read 0? */
    OPEN_TO_AIR(10, Toll.LINE_OPENED, Answer.READS_ZERO, Answer.READS_OFF),
    /** Walk the line from booster to intensifier: is there water where none should be? */
    WALK_THE_LINE(5, Toll.LOOK, Answer.WATER_FOUND, Answer.ALL_DRY),
    /** Vent at the filter housings: does air come? */
    VENT(10, Toll.HANDLED, Answer.AIR_CAME, Answer.NO_AIR),
    /** Open and look at the strainer. */
    STRAINER(20, Toll.LINE_OPENED, Answer.STRAINER_DIRTY, Answer.STRAINER_CLEAN),
    /** A mark across both halves of the coupling: is it still in line after a run? */
    COUPLING_MARK(10, Toll.LOCKED_OUT, Answer.COUPLING_HELD, Answer.COUPLING_SLIPPED),
    /** The shut-off valve's position indicator, coil and pilot: does it open fully? */
    SHUT_OFF_VALVE(10, Toll.HANDLED, Answer.FULLY_OPEN, Answer.NOT_FULLY_OPEN),
    /** Listen at the shut-off valve over three starts: does it open at once? */
    VALVE_TIMED(5, Toll.LOOK, Answer.OPENS_AT_ONCE, Answer.OPENS_LATE),
    /** A dial gauge at the inlet beside the transducer's reading. */
    DIAL_GAUGE(3, Toll.LOOK, Answer.DIAL_AGREES, Answer.DIAL_DIFFERS),
    /** Turn the regulator a quarter and back: does the level follow both ways? */
    REGULATOR(5, Toll.HANDLED, Answer.FOLLOWS_SETTING, Answer.DOES_NOT_FOLLOW),
    /** The filters' own differential gauge, or two dials, and the date of the last change. */
    FILTER_GAUGE(3, Toll.LOOK, Answer.FILTERS_LOADED, Answer.FILTERS_FREE),
    /** Labels, connectors, terminals and loop currents of the transducers. */
    WIRING(10, Toll.HANDLED, Answer.WIRING_SOUND, Answer.WIRING_FAULT),
    /** Range, address, number format and scaling as configured, beside plates and manual. */
    SETTINGS(5, Toll.LOOK, Answer.SETTINGS_MATCH, Answer.SETTINGS_DIFFER),
    /** While strokes run: does water pass through the regulator's way back? */
    BYPASS(2, Toll.LOOK, Answer.BYPASS_PASSES, Answer.BYPASS_QUIET),
    /** While strokes run: does the pump sound as if it pumped gravel? */
    LISTEN(2, Toll.LOOK, Answer.SOUNDS_LIKE_GRAVEL, Answer.SOUNDS_SMOOTH),
    /** A gauge at the pump's suction while strokes run: does it read as the inlet gauge does? */
    SUCTION(10, Toll.LINE_OPENED, Answer.SUCTION_AGREES, Answer.SUCTION_LOWER),
    /** With the booster off, a drain behind the strainer opened: does water come with force? */
    WATER_RUNS(5, Toll.HANDLED, Answer.WATER_RUNS, Answer.NO_WATER),
    /** Other users of the same main: is it weak there too? */
    OTHER_USERS(3, Toll.LOOK, Answer.WEAK_THERE_TOO, Answer.ONLY_HERE),
    /** While a drain at the boosted gauge stands open: does it read 0? */
    DRAIN_OPEN(5, Toll.HANDLED, Answer.DRAINS_TO_ZERO, Answer.READS_ON);

    /** What a check takes beside its minutes: a tool, and how near it brings people to harm. */
    public enum Toll {
        /** Looked at or listened to, nothing is touched but what operators touch. */
        LOOK(0),
        /** Something is adjusted or measured with a tool. */
        HANDLED(5),
        /** The machine is stopped, isolated and locked out. */
        LOCKED_OUT(15),
        /** As before, and a line is relieved of pressure and opened. */
        LINE_OPENED(20);

        private final double minutes;

        Toll(double minutes) {
            this.minutes = minutes;
        }
    }

    private final double minutes;
    private final Toll toll;
    private final List<Answer> answers;

    Check(double minutes, Toll toll, Answer one, Answer other) {
        this.minutes = minutes;
        this.toll = toll;
        this.answers = List.of(one, other);
    }

    /** The check that this is an answer to. */
    public static Check of(Answer answer) {
        for (Check check : values()) {
            if (check.answers.contains(answer)) {
                return check;
            }
        }
        throw new IllegalArgumentException("of no check: " + answer);
    }

    /** Such as {@code jet-off}. */
    public String key() {
        return Keyword.of(this);
    }

    /** What it costs, minutes of a technician; common practice, no source. */
    public double minutes() {
        return minutes;
    }

    public Toll toll() {
        return toll;
    }

    /**
     * What it costs in all: its minutes, and those that its toll is worth. A price to compare
     * checks by, not a time; own weighing.
     */
    double price() {
        return minutes + toll.minutes;
    }

    /**
     * Whether the booster has to run on for it. Nobody is asked for that while it may be starved:
     * it runs dry.
     */
    boolean runsBooster() {
        return switch (this) {
            case JET_OFF, REGULATOR, COUPLING_MARK, BYPASS, LISTEN, SUCTION -> true;
            default -> false;
        };
    }

    /** Whether it is made at terminals and settings, with no hand on the water line. */
    boolean isAtLoop() {
        return this == WIRING || this == SETTINGS;
    }

    /** The two answers; the table of {@link AnswerTable} is of the first. */
    public List<Answer> answers() {
        return answers;
    }
}
