package leat.diagnose;

import java.util.List;
import leat.signal.Keyword;

/** Something that a person can look at to tell causes apart. Keys are part of JSON. */
public enum Check {
    /** With the jet off and the booster on for 10 s: does the level recover? */
    JET_OFF(2, Answer.RECOVERS, Answer.STAYS_LOW),
    /** With the guard on, does the pump's shaft turn? */
    SHAFT(2, Answer.SHAFT_TURNS, Answer.SHAFT_STANDS),
    /** Water on, booster off: inlet and boosted gauge should read alike. */
    BOTH_GAUGES(5, Answer.GAUGES_AGREE, Answer.GAUGES_DIFFER),
    /** With the hand valve upstream shut, does the pressure at rest fall to 0? */
    HAND_VALVE(5, Answer.FALLS_TO_ZERO, Answer.STAYS_UP),
    /** Walk the line from booster to intensifier: is there water? */
    WALK_THE_LINE(5, Answer.WATER_FOUND, Answer.ALL_DRY),
    /** Vent at the filter housings. */
    VENT(10, Answer.AIR_CAME, Answer.NO_AIR),
    /** Open and look at the strainer. */
    STRAINER(20, Answer.STRAINER_DIRTY, Answer.STRAINER_CLEAN),
    /** A mark across both halves of the coupling: is it still in line after a run? */
    COUPLING_MARK(15, Answer.COUPLING_HELD, Answer.COUPLING_SLIPPED),
    /** The shut-off valve's position indicator, coil and pilot. */
    SHUT_OFF_VALVE(10, Answer.FULLY_OPEN, Answer.NOT_FULLY_OPEN),
    /** A dial gauge at the inlet beside the transducer's reading. */
    DIAL_GAUGE(5, Answer.DIAL_AGREES, Answer.DIAL_DIFFERS),
    /** Turn the regulator a quarter and back: does the level follow? */
    REGULATOR(10, Answer.FOLLOWS_SETTING, Answer.DOES_NOT_FOLLOW);

    private final double minutes;
    private final List<Answer> answers;

    Check(double minutes, Answer one, Answer other) {
        this.minutes = minutes;
        this.answers = List.of(one, other);
    }

    /** Such as {@code jet-off}. */
    public String key() {
        return Keyword.of(this);
    }

    /** What it costs, minutes of a technician; common practice, no source. */
    public double minutes() {
        return minutes;
    }

    public List<Answer> answers() {
        return answers;
    }
}
