package leat.rule;

import java.util.List;
import java.util.Set;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.Gauges.Switch;
import leat.wire.State;

/**
 * Whether the inlet and the boosted channel read each other's pressure: then the inlet reads 0 at
 * rest and the level while running, and boosted reads the supply all the time. Each reading by
 * itself looks like a fault of the machine, so the order is told from both over time and not from
 * phases, which are nonsense with swapped gauges. Thread-confined.
 *
 * <p>It is told at the first start where the inlet reaches a level that no supply has, or where a
 * run signal tells rest from run; else when the inlet has come back to 0 and boosted still reads
 * the supply.
 */
final class SwapJudge implements Judge {

    /** How the two gauges stand to one another. */
    private enum Looks {
        /** Nothing can be told: on the way, or not both gauges read. */
        UNCLEAR,
        /** As they should: supply before an empty line, or the level behind a lower inlet. */
        RIGHT,
        /** The inlet reads 0, and boosted a supply that stands still. */
        SWAPPED_AT_REST,
        /** Both read 0: a transducer behind the valve, or no water. */
        BOTH_EMPTY,
        /** The inlet reads far more than boosted, so that water would run from there by itself. */
        SWAPPED_RUNNING
    }

    private static final int HELD_SECONDS = 3;

    /** A shut line at rest moves by no more in a few seconds; strokes do. */
    private static final double CALM_PSI = 2;

    /** A sound transmitter reads no less than this where nothing sucks. */
    private static final double VACUUM_PSI = -1;

    /** So long a climb or a fall may take between two looks that say something. */
    private static final long ON_THE_WAY_MICROS = 30_000_000;

    private final long freshMicros;
    private final double emptyPsi;
    private final double supplyPsi;
    private final double samePsi;
    private final double boost;
    private final double levelPsi;
    private final Latch swapped;

    private Looks looks = Looks.UNCLEAR;
    private long heldSeconds;
    private double anchorInletPsi;
    private double anchorBoostedPsi;
    private boolean seenRight;
    private double rightSupplyPsi;

    /** The inlet was seen empty, and nothing has looked right since. */
    private boolean empty;

    private boolean emptyOfSupply;
    private boolean emptySwitchedOff;
    private double emptyInletPsi;
    private double emptyBoostedPsi;
    private long runs;
    private double runInletPsi;
    private double runBoostedPsi;
    private long tellingMicros = Gauge.NEVER;
    private boolean accused;

    SwapJudge(Limits limits) {
        freshMicros = limits.micros(Limit.SIGNAL_BLIND);
        emptyPsi = limits.get(Limit.REST_ADVISORY);
        supplyPsi = limits.get(Limit.RATIO_MIN_INLET);
        samePsi = limits.get(Limit.BASELINE_INLET_SAME);
        boost = limits.get(Limit.RATIO_CRITICAL_CLEAR);
        levelPsi = limits.get(Limit.LEVEL_WARNING);
        swapped = new Latch(0, limits.micros(Limit.SIGNAL_OFF_DELAY));
    }

    /** True while nothing that the two gauges show can be held against the machine. */
    boolean isDoubted(long nowMicros) {
        if (swapped.isActive() || accused) {
            return true;
        }
        boolean calm = looks == Looks.SWAPPED_AT_REST && heldSeconds >= HELD_SECONDS;
        boolean onTheWay =
                empty
                        && looks != Looks.RIGHT
                        && nowMicros - tellingMicros <= ON_THE_WAY_MICROS
                        && (emptyOfSupply || runs > 0);
        return calm && isLikeSupply(anchorBoostedPsi)
                || onTheWay && (!emptyOfSupply || isLikeSupply(emptyBoostedPsi));
    }

    /** What boosted reads may be the supply: as the inlet read when the two were last right. */
    private boolean isLikeSupply(double psi) {
        return !seenRight || Math.abs(psi - rightSupplyPsi) <= samePsi;
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        Gauges gauges = situation.gauges();
        double inlet = gauges.inlet().secondMean();
        double boosted = gauges.boosted().secondMean();
        Switch run = gauges.runSignal();
        boolean seen =
                gauges.inlet().isFresh(situation.atMicros(), freshMicros)
                        && gauges.boosted().isFresh(situation.atMicros(), freshMicros);
        hold(seen ? look(inlet, boosted, run) : Looks.UNCLEAR, inlet, boosted);
        if (heldSeconds >= HELD_SECONDS) {
            conclude(situation.atMicros(), inlet, boosted, run);
        }
        boolean right = looks == Looks.RIGHT && heldSeconds >= HELD_SECONDS;
        boolean stood = swapped.isActive();
        swapped.look(situation.atMicros(), accused, right);
        if (swapped.isActive() != stood) {
            tell(situation, findings);
        }
    }

    private Looks look(double inlet, double boosted, Switch run) {
        boolean isEmpty = inlet >= VACUUM_PSI && inlet <= emptyPsi;
        if (isEmpty && run != Switch.ON && boosted >= supplyPsi && boosted < levelPsi) {
            return Looks.SWAPPED_AT_REST;
        }
        if (isEmpty && run != Switch.ON && boosted <= emptyPsi) {
            return Looks.BOTH_EMPTY;
        }
        boolean restsRight = inlet >= supplyPsi && boosted <= emptyPsi;
        boolean runsRight =
                inlet > emptyPsi
                        && boosted >= levelPsi
                        && boosted >= boost * Math.max(inlet, supplyPsi);
        if (restsRight || runsRight) {
            return Looks.RIGHT;
        }
        return run != Switch.OFF
                        && boosted > emptyPsi
                        && inlet >= boost * Math.max(boosted, supplyPsi)
                ? Looks.SWAPPED_RUNNING
                : Looks.UNCLEAR;
    }

    /** Counts how long it has looked so; at rest also how long nothing has moved. */
    private void hold(Looks now, double inlet, double boosted) {
        boolean rests = now == Looks.SWAPPED_AT_REST || now == Looks.RIGHT && boosted <= emptyPsi;
        boolean moved =
                rests
                        && (Math.abs(inlet - anchorInletPsi) > CALM_PSI
                                || Math.abs(boosted - anchorBoostedPsi) > CALM_PSI);
        if (now != looks || moved) {
            heldSeconds = 0;
            anchorInletPsi = inlet;
            anchorBoostedPsi = boosted;
        }
        looks = now;
        heldSeconds++;
    }

    private void conclude(long atMicros, double inlet, double boosted, Switch run) {
        switch (looks) {
            case UNCLEAR -> {
                // nothing can be told
            }
            case RIGHT -> {
                boolean rests = boosted <= emptyPsi;
                rightSupplyPsi = rests || !seenRight ? inlet : rightSupplyPsi;
                seenRight = true;
                empty = false;
                runs = 0;
                accused = false;
            }
            case SWAPPED_AT_REST -> {
                boolean isAsBefore = Math.abs(boosted - emptyBoostedPsi) <= samePsi;
                accused |= empty && emptyOfSupply && runs > 0 && isAsBefore;
                emptied(atMicros, true, inlet, boosted, run);
            }
            case BOTH_EMPTY -> emptied(atMicros, false, inlet, boosted, run);
            case SWAPPED_RUNNING -> {
                if (empty && (!emptyOfSupply || boosted <= emptyBoostedPsi + samePsi)) {
                    ran(atMicros, inlet, boosted, run);
                }
            }
        }
    }

    private void emptied(
            long atMicros, boolean ofSupply, double inlet, double boosted, Switch run) {
        if (empty && ofSupply != emptyOfSupply) {
            runs = 0;
        }
        empty = true;
        emptyOfSupply = ofSupply;
        emptySwitchedOff = run == Switch.OFF;
        emptyInletPsi = inlet;
        emptyBoostedPsi = boosted;
        tellingMicros = atMicros;
    }

    private void ran(long atMicros, double inlet, double boosted, Switch run) {
        runs += heldSeconds == HELD_SECONDS ? 1 : 0;
        runInletPsi = inlet;
        runBoostedPsi = boosted;
        tellingMicros = atMicros;
        boolean bySwitch = emptySwitchedOff && run == Switch.ON;
        boolean byLevel = inlet >= levelPsi;
        accused |= emptyOfSupply ? byLevel || bySwitch : byLevel && (bySwitch || runs > 1);
    }

    private void tell(Situation situation, Findings findings) {
        if (!swapped.isActive()) {
            GradedLimits.tellEnd(
                    Rule.SIGNAL_SWAPPED, Channel.INLET, situation, List.of(), findings);
            return;
        }
        findings.found(
                new Finding(
                        Rule.SIGNAL_SWAPPED,
                        Channel.INLET,
                        Grade.WARNING,
                        situation.atMicros(),
                        situation.atMicros(),
                        Quantity.PRESSURE_PSI,
                        runInletPsi,
                        runBoostedPsi,
                        Sense.AT_MOST,
                        GradedLimits.gaugeNow(situation, Channel.INLET),
                        GradedLimits.gaugeNow(situation, Channel.BOOSTED),
                        List.of(
                                Remark.of(
                                        Remark.Kind.SWAPPED_AT_REST,
                                        emptyInletPsi,
                                        emptyBoostedPsi))));
    }

    /** Event time has jumped. */
    void forget() {
        pause();
        empty = false;
        runs = 0;
        tellingMicros = Gauge.NEVER;
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.INLET, Channel.BOOSTED);
    }

    @Override
    public void pause() {
        looks = Looks.UNCLEAR;
        heldSeconds = 0;
        swapped.pause();
    }

    @Override
    public void letGo(Rule rule, Situation situation, Findings findings) {
        // a channel is as it is, whoever works on the machine
    }

    @Override
    public void keep(State state) {
        state.part(
                Rule.SIGNAL_SWAPPED.key(),
                part -> {
                    part.part(Grade.WARNING.name(), swapped::keep);
                    looks = part.keep("looks", looks);
                    heldSeconds = part.keep("heldSeconds", heldSeconds);
                    anchorInletPsi = part.keep("anchorInletPsi", anchorInletPsi);
                    anchorBoostedPsi = part.keep("anchorBoostedPsi", anchorBoostedPsi);
                    seenRight = part.keep("seenRight", seenRight);
                    rightSupplyPsi = part.keep("rightSupplyPsi", rightSupplyPsi);
                    empty = part.keep("empty", empty);
                    emptyOfSupply = part.keep("emptyOfSupply", emptyOfSupply);
                    emptySwitchedOff = part.keep("emptySwitchedOff", emptySwitchedOff);
                    emptyInletPsi = part.keep("emptyInletPsi", emptyInletPsi);
                    emptyBoostedPsi = part.keep("emptyBoostedPsi", emptyBoostedPsi);
                    runs = part.keep("runs", runs);
                    runInletPsi = part.keep("runInletPsi", runInletPsi);
                    runBoostedPsi = part.keep("runBoostedPsi", runBoostedPsi);
                    tellingMicros = part.keep("tellingMicros", tellingMicros);
                    accused = part.keep("accused", accused);
                });
    }
}
