package leat.phase;

import java.util.function.Consumer;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.Gauges.Switch;
import leat.signal.SecondMeans;
import leat.wire.State;

/**
 * Finds the phase of the feed line from the pressures, and better with a run signal: the booster
 * contactor where wired, else the shut-off valve. Thread-confined to one watch.
 *
 * <p>Fed with every boosted and contact reading and every tick, after the gauges have taken them.
 * The run signal, where it is known, alone decides start and stop.
 */
public final class PhaseFinder {

    private static final double PLATEAU_SHARE = 0.05;
    private static final double PLATEAU_PSI = 1;
    private static final int PLATEAU_SECONDS = 4;
    private static final long ABORT_MICROS = 4_000_000;
    private static final long LEAST_FALL_MICROS = 2_000_000;
    private static final long LONGEST_FALL_MICROS = 60_000_000;

    /** After so long without sight, another start may have been missed. */
    private static final long SAME_RUN_MICROS = 60_000_000;

    private static final int SETTLED_SECONDS = 10;

    /** A pressure that still climbs after so long is taken as it is. */
    private static final long LONGEST_CLIMB_MICROS = 60_000_000;

    private static final int CLIMB_SECONDS = 4;

    private final PhaseSettings settings;
    private final Gauges gauges;
    private final Signs signs;
    private final Consumer<PhaseChange> changes;
    private final Departure departure = new Departure();
    private final Stop stop;
    private final SecondMeans boostedSeconds = new SecondMeans();

    private Phase phase = Phase.BLIND;
    private Phase beforeBlind = Phase.BLIND;
    private long sinceMicros = Gauge.NEVER;
    private long startMicros = Gauge.NEVER;
    private long stopMicros = Gauge.NEVER;
    private long movedMicros = Gauge.NEVER;
    private double basePsi;
    private boolean hasBoosted;

    /**
     * @param settings what to go by
     * @param gauges the machine's gauges, fed by the caller
     * @param changes told of each change as it is found
     */
    public PhaseFinder(PhaseSettings settings, Gauges gauges, Consumer<PhaseChange> changes) {
        this.settings = settings;
        this.gauges = gauges;
        this.changes = changes;
        signs = new Signs(settings, gauges);
        stop = new Stop(settings, gauges, signs);
    }

    public Phase phase() {
        return phase;
    }

    /** When the booster was last started, microseconds; {@link Gauge#NEVER} if not seen. */
    public long startMicros() {
        return startMicros;
    }

    /** When the booster last stopped or the line was first seen at rest. */
    public long stopMicros() {
        return stopMicros;
    }

    /** When the pressure at rest last jumped without a start: the water was opened. */
    public long movedMicros() {
        return movedMicros;
    }

    /**
     * The boosted pressure's means of each second since the line was last blind or a stop began.
     */
    public SecondMeans boostedSeconds() {
        return boostedSeconds;
    }

    /** The pressure has broken down, and only what follows tells whether the run is over. */
    public boolean isInDoubt(long atMicros) {
        return phase.isRunning() && stop.isInDoubt(atMicros);
    }

    /**
     * Whether the inlet gauge, which sits behind the valve, may read nothing because the valve has
     * been shut: a booster that is starved sucks it below zero.
     */
    public boolean mayBeShut() {
        return phase.isRunning() && stop.mayBeShut();
    }

    /**
     * Whether the booster has lifted the pressure. It has when the mean of the last second lies
     * well above the lowest level at the start, or above what flows through a standing booster.
     */
    public boolean hasClimbed() {
        double level = gauges.boosted().secondMean();
        return gauges.hasInlet() && level - basePsi >= Signs.LEAST_CLIMB_PSI
                || signs.isBoost(level, gauges.inlet().secondMean());
    }

    /** A boosted reading has been shown on its gauge. */
    public void boostedRead(long atMicros, double psi) {
        switch (phase) {
            case BLIND -> lookAgain(atMicros);
            case REST -> {
                if (departure.shows(atMicros, psi)) {
                    leaveRest(atMicros);
                }
            }
            case RISE -> {
                basePsi = Math.min(basePsi, gauges.boosted().secondMean());
                if (stop.shows(atMicros, psi)) {
                    stop(stop.sinceMicros(atMicros), atMicros, PhaseReason.BROKE_DOWN_CLIMBING);
                }
            }
            case STEADY -> {
                if (stop.shows(atMicros, psi)) {
                    stop(stop.sinceMicros(atMicros), atMicros, PhaseReason.BROKE_DOWN);
                }
            }
            case FALL -> {
                basePsi = Math.min(basePsi, gauges.boosted().secondMean());
                if (departure.shows(atMicros, psi) && signs.pressuresDecide()) {
                    start(departure.sinceMicros(), atMicros, PhaseReason.CLIMBS_AGAIN);
                }
            }
        }
    }

    /** A contact reading has been shown on its gauge. */
    public void contactRead(long atMicros) {
        if (phase == Phase.BLIND) {
            return;
        }
        followRunSignal(atMicros);
    }

    /**
     * A second has passed. The gauges have already dropped readings that are too old.
     *
     * @param riseDeadlineMicros the time for a climb; after it the line counts as steady, even far
     *     below its level, unless it plainly climbs on
     */
    public void tick(long atMicros, long riseDeadlineMicros) {
        if (!signs.seeBothPressures(atMicros)) {
            loseSight(atMicros, PhaseReason.NO_SIGHT);
            return;
        }
        if (phase == Phase.BLIND) {
            lookAgain(atMicros);
        }
        boostedSeconds.add(gauges.boosted().secondMean());
        followRunSignal(atMicros);
        switch (phase) {
            case REST -> tickRest(atMicros);
            case RISE -> tickRise(atMicros, riseDeadlineMicros);
            case STEADY -> tickSteady(atMicros);
            case FALL -> tickFall(atMicros);
            case BLIND -> {
                // nothing that only time decides
            }
        }
    }

    /** A gauge has fallen silent or reads nonsense: no phase can be told until both are back. */
    public void loseSight(long atMicros, PhaseReason reason) {
        if (phase == Phase.BLIND) {
            return;
        }
        beforeBlind = phase;
        boostedSeconds.clear();
        departure.reset();
        become(Phase.BLIND, atMicros, reason);
    }

    /**
     * The clock was set: no earlier moment can be compared with a later one.
     *
     * @param fromMicros the end of the time before the jump
     */
    public void forget(long fromMicros) {
        loseSight(fromMicros, PhaseReason.CLOCK_SET);
        beforeBlind = Phase.BLIND;
        startMicros = Gauge.NEVER;
        stopMicros = Gauge.NEVER;
        movedMicros = Gauge.NEVER;
        stop.begin();
    }

    private void lookAgain(long atMicros) {
        if (!signs.seeBothPressures(atMicros)) {
            return;
        }
        double boosted = gauges.boosted().latest();
        double inlet = gauges.inlet().latest();
        if (signs.seemsToRun(boosted, inlet)) {
            if (!beforeBlind.isRunning() || atMicros - sinceMicros > SAME_RUN_MICROS) {
                startMicros = atMicros;
            }
            stop.begin();
            become(Phase.STEADY, atMicros, PhaseReason.SEEN_RUNNING);
        } else {
            stopMicros = atMicros;
            rest(atMicros, PhaseReason.SEEN_AT_REST);
        }
    }

    private void followRunSignal(long atMicros) {
        Switch run = signs.runSignal();
        if (run == Switch.ON && !phase.isRunning() && phase != Phase.BLIND) {
            start(atMicros, atMicros, PhaseReason.RUN_SIGNAL_ON);
        } else if (run == Switch.OFF && phase.isRunning()) {
            stop(atMicros, atMicros, PhaseReason.RUN_SIGNAL_OFF);
        }
    }

    private void leaveRest(long atMicros) {
        if (signs.runSignal() == Switch.OFF) {
            movedMicros = atMicros;
        } else {
            start(departure.sinceMicros(), atMicros, PhaseReason.LEFT_BASE);
        }
    }

    private void start(long startedMicros, long atMicros, PhaseReason reason) {
        if (phase == Phase.REST) {
            basePsi = gauges.boosted().fiveSecondMean();
        }
        startMicros = startedMicros;
        hasBoosted = false;
        stop.begin();
        become(Phase.RISE, atMicros, reason);
    }

    private void stop(long stoppedMicros, long atMicros, PhaseReason reason) {
        stopMicros = stoppedMicros;
        basePsi = gauges.boosted().latest();
        boostedSeconds.clear();
        departure.reset();
        become(Phase.FALL, atMicros, reason);
    }

    private void rest(long atMicros, PhaseReason reason) {
        departure.reset();
        movedMicros = Gauge.NEVER;
        become(Phase.REST, atMicros, reason);
    }

    private void tickRest(long atMicros) {
        stop.tickAtRest();
        if (signs.pressuresDecide() && signs.isInletSuckedEmpty()) {
            start(atMicros, atMicros, PhaseReason.INLET_SUCKED_EMPTY);
        }
    }

    private void tickRise(long atMicros, long riseDeadlineMicros) {
        double level = gauges.boosted().secondMean();
        long climbing = atMicros - startMicros;
        boolean flat =
                boostedSeconds.spread(PLATEAU_SECONDS)
                        <= Math.max(PLATEAU_PSI, PLATEAU_SHARE * level);
        boolean settled = flat && level - basePsi >= Signs.LEAST_CLIMB_PSI;
        boolean over =
                climbing >= LONGEST_CLIMB_MICROS || climbing >= riseDeadlineMicros && !climbs();
        stop.tickClimbing();
        if (stop.fallsOn(atMicros, boostedSeconds)) {
            stop(stop.sinceMicros(atMicros), atMicros, PhaseReason.BROKE_DOWN_CLIMBING);
        } else if (signs.pressuresDecide()
                && climbing > ABORT_MICROS
                && level < basePsi + Signs.LEAST_CLIMB_PSI / 2
                && !signs.isInletStarved()) {
            wasNoStart(atMicros, PhaseReason.CAME_TO_NOTHING);
        } else if (signs.pressuresDecide()
                && (settled || climbing >= riseDeadlineMicros)
                && signs.isBelowFreePath(level)) {
            wasNoStart(atMicros, PhaseReason.ENDED_BELOW_INLET);
        } else if (settled) {
            become(Phase.STEADY, atMicros, PhaseReason.SETTLED);
        } else if (over) {
            become(Phase.STEADY, atMicros, PhaseReason.CLIMB_TIME_OVER);
        }
    }

    /** The pressure has not come to a level: each half of the last seconds lies well above. */
    private boolean climbs() {
        double enough = Math.max(PLATEAU_PSI, PLATEAU_SHARE * gauges.boosted().secondMean()) / 2;
        return boostedSeconds.climb(CLIMB_SECONDS) > enough
                && boostedSeconds.climb(SETTLED_SECONDS) > 2 * enough;
    }

    /** What looked like a start was none. Only pressures can mislead so, a run signal cannot. */
    private void wasNoStart(long atMicros, PhaseReason reason) {
        stopMicros = atMicros;
        rest(atMicros, reason);
    }

    private void tickSteady(long atMicros) {
        double boosted = gauges.boosted().secondMean();
        if (signs.pressuresDecide() && boosted < settings.restPsi() && !stop.isStarved(atMicros)) {
            stop(atMicros, atMicros, PhaseReason.NONE_LEFT);
            return;
        }
        if (stop.fallsOn(atMicros, boostedSeconds)) {
            stop(stop.sinceMicros(atMicros), atMicros, PhaseReason.BROKE_DOWN);
            return;
        }
        hasBoosted |= signs.seemsToRun(boosted, gauges.inlet().secondMean());
        stop.tickAtLevel();
        if (hasBoosted && stop.diesAway(atMicros, boostedSeconds)) {
            stop(atMicros, atMicros, PhaseReason.DIES_AWAY);
        }
    }

    private void tickFall(long atMicros) {
        long falling = atMicros - stopMicros;
        if (falling >= LEAST_FALL_MICROS && gauges.boosted().secondMean() < settings.restPsi()) {
            rest(atMicros, PhaseReason.GONE);
        } else if (boostedSeconds.fallPerSecond(SETTLED_SECONDS) < settings.fallingPsiPerSecond()) {
            rest(atMicros, PhaseReason.FALLS_NO_MORE);
        } else if (falling >= LONGEST_FALL_MICROS) {
            rest(atMicros, PhaseReason.MINUTE_AFTER_STOP);
        }
    }

    private void become(Phase next, long atMicros, PhaseReason reason) {
        PhaseChange change = new PhaseChange(phase, next, atMicros, reason);
        phase = next;
        sinceMicros = atMicros;
        changes.accept(change);
    }

    /** When the present phase began. */
    public long sinceMicros() {
        return sinceMicros;
    }

    public void keep(State state) {
        state.part("departure", departure::keep);
        state.part("stop", stop::keep);
        phase = state.keep("phase", phase);
        beforeBlind = state.keep("beforeBlind", beforeBlind);
        sinceMicros = state.keep("sinceMicros", sinceMicros);
        startMicros = state.keep("startMicros", startMicros);
        stopMicros = state.keep("stopMicros", stopMicros);
        movedMicros = state.keep("movedMicros", movedMicros);
        basePsi = state.keep("basePsi", basePsi);
        hasBoosted = state.keep("hasBoosted", hasBoosted);
        state.part("boostedSeconds", boostedSeconds::keep);
    }
}
