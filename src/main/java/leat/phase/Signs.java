package leat.phase;

import leat.signal.Gauges;
import leat.signal.Gauges.Switch;

/** What the gauges say of the booster at this moment. Thread-confined. */
final class Signs {

    /** A pressure that has climbed by less has not climbed. */
    static final double LEAST_CLIMB_PSI = 10;

    /**
     * A booster that stands still passes the inlet pressure less a small loss. A line that settles
     * below this share of it is filled through a leak and not through an open valve.
     */
    private static final double FREE_PATH_SHARE = 0.8;

    /** A sound transmitter reads no less than this with the water shut and nothing sucking. */
    private static final double VACUUM_PSI = -1;

    private final PhaseSettings settings;
    private final Gauges gauges;

    Signs(PhaseSettings settings, Gauges gauges) {
        this.settings = settings;
        this.gauges = gauges;
    }

    /** The booster contactor where wired and known, else the shut-off valve. */
    Switch runSignal() {
        return gauges.runSignal();
    }

    /** True when no run signal is known: then the pressures decide. */
    boolean pressuresDecide() {
        return runSignal() == Switch.UNKNOWN;
    }

    boolean seeBothPressures(long nowMicros) {
        return gauges.seeBothPressures(nowMicros, settings.blindMicros());
    }

    /** By the run signal, else by a boosted pressure that only a booster can make. */
    boolean seemsToRun(double boostedPsi, double inletPsi) {
        return switch (runSignal()) {
            case ON -> true;
            case OFF -> false;
            case UNKNOWN -> isBoost(boostedPsi, inletPsi);
        };
    }

    /**
     * The boosted pressure lies clearly above the inlet pressure and above an empty line. Without
     * an inlet gauge: above what water that flows through a standing booster comes to.
     */
    boolean isBoost(double boostedPsi, double inletPsi) {
        if (!gauges.hasInlet()) {
            return boostedPsi > settings.boostedAlonePsi();
        }
        return boostedPsi > settings.boostRatio() * Math.max(inletPsi, LEAST_CLIMB_PSI)
                && boostedPsi > settings.restPsi() + LEAST_CLIMB_PSI;
    }

    /** The boosted pressure lies too far below the inlet for water that passes freely. */
    boolean isBelowFreePath(double boostedPsi) {
        double inlet = gauges.inlet().secondMean();
        return inlet >= LEAST_CLIMB_PSI && boostedPsi < FREE_PATH_SHARE * inlet;
    }

    boolean isInletStarved() {
        return gauges.hasInlet() && gauges.inlet().secondMean() < settings.starvedPsi();
    }

    /** Only a running booster sucks. */
    boolean isInletInVacuum() {
        return Math.min(gauges.inlet().latest(), gauges.inlet().secondMean()) < VACUUM_PSI;
    }

    /**
     * A supply that was there seconds ago has turned into a vacuum. Only a running booster sucks;
     * shut water alone lets the inlet fall to 0 and no further.
     */
    boolean isInletSuckedEmpty() {
        return gauges.inlet().secondMean() < VACUUM_PSI
                && gauges.inlet().fiveSecondMean() >= LEAST_CLIMB_PSI;
    }
}
