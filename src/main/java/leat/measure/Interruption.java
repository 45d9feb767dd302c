package leat.measure;

import java.util.List;
import leat.measure.absence.Absence;

/**
 * A climb that fell back on its way and began again: without a run signal nothing tells a start
 * that was broken off and begun again within seconds from one whose coupling slipped, so that it
 * has no one duration.
 */
final class Interruption {

    /** So much of a stroke is left in such a mean that it does not show. */
    private static final double HALF_SECONDS = 0.3;

    private static final double LEAST_PSI = 2.5;
    private static final double LEAST_SHARE = 0.025;
    private static final double REACHED_SHARE = 0.9;

    private static final List<Measurand> DURATIONS =
            List.of(
                    Measurand.RISE,
                    Measurand.RISE_FROM_INLET,
                    Measurand.BOOST_RATE,
                    Measurand.TIME_TO_DOUBLE,
                    Measurand.TIME_TO_LEVEL);

    private Interruption() {}

    /**
     * The start without the durations that it does not have, if it fell back.
     *
     * @param curve the boosted pressure from the start on
     */
    static Startup heeded(Startup startup, Stretch curve) {
        return startup.basePsi().isPresent()
                        && startup.topPsi().isPresent()
                        && fellBack(curve, startup.basePsi().get(), startup.topPsi().get())
                ? startup.without(DURATIONS, Absence.CLIMB_INTERRUPTED)
                : startup;
    }

    private static boolean fellBack(Stretch curve, double base, double top) {
        double least = Math.max(LEAST_PSI, LEAST_SHARE * (top - base));
        int reached = curve.firstAtOrAbove(base + REACHED_SHARE * (top - base), 0);
        Stretch slow = curve.smoothed(HALF_SECONDS);
        double crest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < reached; i++) {
            crest = Math.max(crest, slow.psi(i));
            if (slow.psi(i) < crest - least) {
                return true;
            }
        }
        return false;
    }
}
