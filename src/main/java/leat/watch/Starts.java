package leat.watch;

import java.util.Optional;
import java.util.function.Consumer;
import leat.measure.Curve;
import leat.measure.FilterLoss;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.measure.StartupMeter;
import leat.measure.StartupSettings;
import leat.measure.absence.Absence;
import leat.phase.Demand;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.phase.PhaseFinder;
import leat.phase.PhaseReason;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.RuleBook;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.Gauges.Switch;
import leat.signal.Reading;
import leat.wire.State;

/**
 * Every start of the booster, from the moment that the phase shows it until it has been measured
 * and judged, or is known to have been none. Thread-confined to its watch.
 */
final class Starts {

    private static final long BEFORE_STOP_MICROS = 500_000;

    /** A shorter run has no level. */
    private static final long LEAST_LEVEL_MICROS = 5_000_000;

    private static final double STILL_CLIMBING_SHARE = 0.05;

    /** Longer than a swing. */
    private static final int SWING_SECONDS = 10;

    private static final double STILL_CREEPING_SHARE = 0.0025;

    /** A level loses less in a second, a line that was stopped more: own model. */
    private static final double SINKING_SHARE = 0.02;

    /** The strokes have begun by then: the top is not that of an unloaded booster. */
    private static final long EARLIEST_MEASURE_MICROS = 12_000_000;

    private static final long LATEST_MEASURE_MICROS = 20_000_000;

    /** So long after the climb, where that took longer. */
    private static final long LATEST_AFTER_CLIMB_MICROS = 8_000_000;

    private static final int CLIMB_SECONDS = 4;

    private final Limits limits;
    private final Gauges gauges;
    private final PhaseFinder phases;
    private final RuleBook rules;
    private final Consumer<Startup> looks;
    private final Consumer<Outcome.StartupMeasured> outcomes;
    private final StartupMeter startup;
    private final FilterLoss filters = new FilterLoss();
    private long steadyMicros = Gauge.NEVER;

    /** The time for the climb of the open start is over, and it has been called. */
    private boolean isOverdue;

    /**
     * Since the last start the pressure was seen to fall from a run. A machine that is first seen
     * at rest has stopped at no known time.
     */
    private boolean hasFallen;

    /**
     * @param looks told of each start as it was measured, before it is judged
     * @param outcomes told of each start that has been judged
     */
    Starts(
            Limits limits,
            Gauges gauges,
            PhaseFinder phases,
            RuleBook rules,
            Consumer<Startup> looks,
            Consumer<Outcome.StartupMeasured> outcomes) {
        this.limits = limits;
        this.gauges = gauges;
        this.phases = phases;
        this.rules = rules;
        this.looks = looks;
        this.outcomes = outcomes;
        startup =
                new StartupMeter(
                        new StartupSettings(
                                limits.get(Limit.RATIO_MIN_INLET),
                                limits.get(Limit.RISE_FIXED_LEVEL),
                                gauges.hasInlet()));
    }

    /** A usable pressure was shown on its gauge. */
    void read(Reading reading) {
        if (reading.channel() == Channel.INLET) {
            startup.inletRead(reading.atMicros(), reading.value());
        } else if (reading.channel() == Channel.BOOSTED) {
            startup.boostedRead(reading.atMicros(), reading.value());
        }
    }

    /** The boosted pressure of the last seconds; to be read at once and not kept. */
    Curve boosted() {
        return startup.boosted();
    }

    /** The open start while it has not risen, as far as it has come; looking changes nothing. */
    Optional<Startup> climbing(long atMicros) {
        boolean climbs = startup.isOpen() && phases.phase().isRunning();
        return climbs && !(hasRisen() && isAboveInlet())
                ? Optional.of(startup.soFar(atMicros, Absence.NO_LEVEL))
                : Optional.empty();
    }

    /** Event time has jumped. */
    void forget() {
        startup.clear();
        filters.clear();
    }

    void phaseChanged(PhaseChange change) {
        if (!change.to().isRunning()) {
            close(change);
        }
        switch (change.to()) {
            case RISE -> {
                startup.open(
                        phases.startMicros(),
                        isCommanded(),
                        hasFallen ? phases.stopMicros() : Gauge.NEVER);
                hasFallen = false;
                isOverdue = false;
                filters.clear();
            }
            case STEADY -> steadyMicros = change.atMicros();
            case FALL -> hasFallen = true;
            case BLIND -> hasFallen = false;
            case REST -> {
                // nothing begins
            }
        }
    }

    private boolean isCommanded() {
        return gauges.contact(Channel.RUNNING) == Switch.ON
                || gauges.contact(Channel.VALVE) == Switch.ON;
    }

    /** A second has passed: measures a start whose time is up, however early it had settled. */
    void tick(long atMicros, Demand demand) {
        if (!startup.isOpen() || !phases.phase().isRunning()) {
            return;
        }
        tickFilters(atMicros, demand);
        long sinceStart = atMicros - startup.startMicros();
        long deadline = rules.riseDeadlineMicros();
        if (sinceStart < Math.min(EARLIEST_MEASURE_MICROS, deadline)) {
            return;
        }
        if (phases.phase() == Phase.RISE) {
            awaitLevel(atMicros, sinceStart >= deadline);
        } else if (hasRisen()) {
            if (!stillCreeps() && !sinks() || atMicros >= latestMeasureMicros()) {
                judge(startup.measure(atMicros, atMicros));
            }
        } else if (sinceStart >= deadline) {
            awaitCalm(atMicros);
        }
    }

    /** A level that swings is measured when it does not swing up, or at the latest. */
    private void awaitCalm(long atMicros) {
        if (!isAboveInlet()) {
            judge(startup.giveUp(atMicros, Absence.NO_LEVEL));
        } else if (!swingsUp() || atMicros >= latestMeasureMicros()) {
            judge(startup.measure(atMicros, atMicros));
        }
    }

    /** The pressure climbs on: it is measured when it stands, but called when its time is over. */
    private void awaitLevel(long atMicros, boolean isOver) {
        if (isOver && !isOverdue && gauges.boosted().secondMean() < enoughPsi()) {
            isOverdue = true;
            Startup soFar = startup.soFar(atMicros, Absence.NO_LEVEL);
            looks.accept(soFar);
            rules.overdue(soFar);
        }
    }

    private long latestMeasureMicros() {
        return Math.max(
                startup.startMicros() + LATEST_MEASURE_MICROS,
                steadyMicros + LATEST_AFTER_CLIMB_MICROS);
    }

    /** What the filters cost is seen while water is drawn, as far as that is told. */
    private void tickFilters(long atMicros, Demand demand) {
        Gauge filtered = gauges.of(Channel.FILTERED);
        if (demand == Demand.PAUSED || demand == Demand.CHANGING) {
            filters.clear();
        } else if (filtered.isFresh(atMicros, limits.micros(Limit.SIGNAL_BLIND))) {
            filters.add(gauges.boosted().secondMean() - filtered.secondMean());
        }
    }

    /**
     * A level that never stands still, as behind a slipping coupling, is one all the same: the
     * climb is over and the pressure is above that of the inlet.
     */
    private boolean isAboveInlet() {
        double boosted = gauges.boosted().fiveSecondMean();
        double inlet = gauges.inlet().fiveSecondMean();
        return phases.hasClimbed()
                && (!gauges.hasInlet()
                        || inlet >= limits.get(Limit.RATIO_MIN_INLET)
                                && boosted > limits.get(Limit.RATIO_CRITICAL) * inlet);
    }

    private boolean swingsUp() {
        return phases.boostedSeconds().climb(SWING_SECONDS)
                > STILL_CLIMBING_SHARE * gauges.boosted().fiveSecondMean();
    }

    /** At the set level, or at a level of its own that only a climb can have reached. */
    private boolean hasRisen() {
        double level = gauges.boosted().secondMean();
        if (level >= enoughPsi()) {
            return true;
        }
        return climbPsi() <= STILL_CLIMBING_SHARE * level && phases.hasClimbed();
    }

    private double enoughPsi() {
        return limits.levelReachedPsi();
    }

    /** A top taken too early makes the rise too short. */
    private boolean stillCreeps() {
        return climbPsi() > STILL_CREEPING_SHARE * gauges.boosted().secondMean();
    }

    /**
     * Without a run signal a stop shows late: what sinks now may be no level of the start any more.
     */
    private boolean sinks() {
        return phases.boostedSeconds().fellEach(1, SINKING_SHARE);
    }

    private double climbPsi() {
        return phases.boostedSeconds().climb(CLIMB_SECONDS);
    }

    private void judge(Startup climb) {
        Startup measured =
                gauges.isWired(Channel.FILTERED)
                        ? climb.with(Measurand.FILTER_LOSS, filters.psi())
                        : climb;
        looks.accept(measured);
        boolean relaxed = rules.isRelaxed();
        StartupVerdict verdict = rules.judge(measured, isOverdue);
        outcomes.accept(new Outcome.StartupMeasured(measured, verdict));
        if (!startup.isRestart()) {
            rules.learn(measured, verdict, relaxed);
        }
    }

    /** The run ended, or sight was lost, before the start was measured. */
    private void close(PhaseChange change) {
        if (!startup.isOpen()) {
            return;
        }
        if (change.to() == Phase.REST) {
            startup.drop(); // what looked like a start was none
        } else if (change.from() == Phase.STEADY || hadRisen(change)) {
            judge(startup.measure(change.atMicros(), lastOfLevelMicros(change)));
        } else if (isOverdue) {
            judge(startup.giveUp(change.atMicros(), Absence.NO_LEVEL));
        } else {
            StartupVerdict verdict =
                    change.to() == Phase.FALL
                            ? StartupVerdict.brokenOff(secondsToStop(change), change.reason())
                            : StartupVerdict.cutShort(change.reason());
            Startup cut = startup.giveUp(change.atMicros(), Absence.CUT_SHORT);
            outcomes.accept(new Outcome.StartupMeasured(cut, verdict));
        }
    }

    private double secondsToStop(PhaseChange change) {
        return (stoppedMicros(change) - startup.startMicros()) / 1e6;
    }

    /** From pressures alone a stop is told late; when they began to fall is told by the curve. */
    private long stoppedMicros(PhaseChange change) {
        return change.reason() == PhaseReason.RUN_SIGNAL_OFF
                ? phases.stopMicros()
                : startup.kneeMicros(phases.stopMicros());
    }

    /** A short run that was at the set level before it was stopped. */
    private boolean hadRisen(PhaseChange change) {
        if (change.to() != Phase.FALL) {
            return false;
        }
        long last = stoppedMicros(change) - BEFORE_STOP_MICROS;
        return last - startup.startMicros() >= LEAST_LEVEL_MICROS
                && startup.levelPsi(last) >= enoughPsi();
    }

    /** Until when the pressure can be taken for the level that the start had reached. */
    private long lastOfLevelMicros(PhaseChange change) {
        long last =
                change.to() == Phase.FALL
                        ? stoppedMicros(change) - BEFORE_STOP_MICROS
                        : gauges.boosted().usableMicros();
        return change.from() == Phase.STEADY ? Math.max(steadyMicros, last) : last;
    }

    void keep(State state) {
        state.part("startup", startup::keep);
        state.part("filters", filters::keep);
        steadyMicros = state.keep("steadyMicros", steadyMicros);
        isOverdue = state.keep("isOverdue", isOverdue);
        hasFallen = state.keep("hasFallen", hasFallen);
    }
}
