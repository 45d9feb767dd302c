package leat.phase;

import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.SecondMeans;
import leat.wire.State;

/**
 * Tells, without a run signal, whether the booster has been stopped. A stop shuts the valve: the
 * boosted pressure falls through the inlet pressure, and an inlet gauge behind the valve falls with
 * it. A coupling that slips only lets the pressure down to what flows through a standing booster,
 * and within seconds it climbs again: that is one run. Thread-confined.
 */
final class Stop {

    private static final long STARVED_HOLD_MICROS = 10_000_000;

    /** Longer than a coupling lets go; what is not boosted for so long has stopped. */
    private static final long SLIP_MICROS = 5_000_000;

    /** An inlet behind the valve that has lost more than that share of its pressure is shut off. */
    private static final double LEFT_SHARE = 0.8;

    /** A coupling that lets go drops the pressure at once, and there it stands. */
    private static final int FALLS_ON_SECONDS = 3;

    private static final double FALLS_ON_SHARE = 0.05;
    private static final double EMPTIES_SHARE_PER_SECOND = 0.02;
    private static final double FALLING_PSI_PER_SECOND = 0.5;
    private static final int LAST_SECONDS = 2;
    private static final int FALLING_SECONDS = 4;

    private final PhaseSettings settings;
    private final Gauges gauges;
    private final Signs signs;
    private final Collapse collapse = new Collapse();
    private long unboostedSinceMicros = Gauge.NEVER;

    /** As of the last second at rest. */
    private boolean inletRestsEmpty;

    private double inletRunningPsi;

    Stop(PhaseSettings settings, Gauges gauges, Signs signs) {
        this.settings = settings;
        this.gauges = gauges;
        this.signs = signs;
    }

    /** A run begins. */
    void begin() {
        collapse.reset();
        unboostedSinceMicros = Gauge.NEVER;
        inletRunningPsi = 0;
    }

    /** A second at rest has passed. */
    void tickAtRest() {
        inletRestsEmpty =
                gauges.hasInlet() && gauges.inlet().fiveSecondMean() < settings.starvedPsi();
    }

    /** A second of the climb has passed. */
    void tickClimbing() {
        inletRunningPsi = Math.max(inletRunningPsi, gauges.inlet().secondMean());
    }

    /** A second at the level has passed. */
    void tickAtLevel() {
        if (!collapse.isBegun()) {
            inletRunningPsi = gauges.inlet().fiveSecondMean();
        }
    }

    /** A boosted reading of a run; true when it shows that the pressure broke down with a stop. */
    boolean shows(long atMicros, double psi) {
        if (signs.isBoost(psi, gauges.inlet().latest())) {
            unboostedSinceMicros = Gauge.NEVER;
        } else if (unboostedSinceMicros == Gauge.NEVER) {
            unboostedSinceMicros = atMicros;
        }
        return collapse.shows(atMicros, psi) && hasStopped(atMicros, psi);
    }

    /** A level that fell but is still boosted is no stop: 100 psi that became 70 over 40. */
    boolean hasStopped(long atMicros, double boostedPsi) {
        return signs.pressuresDecide()
                && !signs.isBoost(boostedPsi, gauges.inlet().latest())
                && !isStarved(atMicros)
                && (isShutOff() || isUnboosted(atMicros));
    }

    private boolean isUnboosted(long atMicros) {
        return unboostedSinceMicros != Gauge.NEVER
                && atMicros - unboostedSinceMicros >= SLIP_MICROS;
    }

    private boolean isShutOff() {
        double inlet = gauges.inlet().secondMean();
        return inletRestsEmpty
                ? inlet < LEFT_SHARE * inletRunningPsi
                : inlet < Signs.LEAST_CLIMB_PSI
                        || signs.isBelowFreePath(gauges.boosted().secondMean());
    }

    /** The pressure falls second after second, on past what an open valve would hold it at. */
    boolean fallsOn(long atMicros, SecondMeans boosted) {
        return signs.pressuresDecide()
                && !isStarved(atMicros)
                && (isEmptied(boosted)
                        || !isBoosted() && boosted.fellEach(FALLS_ON_SECONDS, FALLS_ON_SHARE));
    }

    private boolean isBoosted() {
        return signs.isBoost(gauges.boosted().secondMean(), gauges.inlet().latest());
    }

    /** The valve has shut off an inlet gauge behind it, and the boosted pressure falls too. */
    private boolean isEmptied(SecondMeans boosted) {
        double enough = EMPTIES_SHARE_PER_SECOND * gauges.boosted().secondMean();
        return mayBeShut()
                && inletRunningPsi >= Signs.LEAST_CLIMB_PSI
                && boosted.count() >= LAST_SECONDS
                && boosted.fallPerSecond(LAST_SECONDS) > enough;
    }

    /** It sinks, slowly, to where it is stopped. */
    boolean diesAway(long atMicros, SecondMeans boosted) {
        return hasStopped(atMicros, gauges.boosted().secondMean())
                && boosted.fallPerSecond(FALLING_SECONDS) > FALLING_PSI_PER_SECOND;
    }

    /**
     * The booster runs dry: the inlet broke down together with the boosted pressure. Behind the
     * valve it does so at every stop; there only a vacuum tells.
     */
    boolean isStarved(long atMicros) {
        boolean isDry =
                inletRestsEmpty
                        ? signs.isInletInVacuum()
                        : gauges.hasInlet() && gauges.inlet().latest() < settings.starvedPsi();
        return isDry && atMicros - collapse.sinceMicros() < STARVED_HOLD_MICROS;
    }

    /**
     * The pressure has broken down, or an inlet gauge behind the valve has gone to zero and no
     * further, and what follows will tell whether the booster has stopped.
     */
    boolean isInDoubt(long atMicros) {
        boolean isDown = unboostedSinceMicros != Gauge.NEVER && collapse.hasLasted(atMicros);
        return signs.pressuresDecide() && isDown || mayBeShut();
    }

    /** An inlet gauge behind the valve has gone to zero and no further, as at a stop. */
    boolean mayBeShut() {
        return signs.pressuresDecide()
                && inletRestsEmpty
                && signs.isInletStarved()
                && !signs.isInletInVacuum();
    }

    /** When the pressure broke down; now, where it sank too slowly for that. */
    long sinceMicros(long atMicros) {
        return collapse.isBegun() ? collapse.sinceMicros() : atMicros;
    }

    void keep(State state) {
        state.part("collapse", collapse::keep);
        unboostedSinceMicros = state.keep("unboostedSinceMicros", unboostedSinceMicros);
        inletRestsEmpty = state.keep("inletRestsEmpty", inletRestsEmpty);
        inletRunningPsi = state.keep("inletRunningPsi", inletRunningPsi);
    }
}
