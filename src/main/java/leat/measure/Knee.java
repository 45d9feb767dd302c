package leat.measure;

/**
 * Where a pressure began to fall: from pressures alone a stop shows only when it has fallen far.
 */
final class Knee {

    /** As long as a stroke. */
    static final double LEVEL_SECONDS = 1;

    private static final double STEP_SECONDS = 0.25;
    private static final double EARLIEST_SECOND = -8;
    private static final double FALLING_SHARE = 0.01;
    private static final double FALLING_PSI = 0.5;

    private Knee() {}

    /**
     * Goes back from second 0 for as long as the mean of a second was higher before.
     *
     * @return second of the knee, from -8 to 0
     */
    static double of(Stretch curve) {
        double knee = 0;
        double level = level(curve, knee);
        while (knee > EARLIEST_SECOND) {
            double before = level(curve, knee - STEP_SECONDS);
            if (!(before > level + Math.max(FALLING_PSI, FALLING_SHARE * level))) {
                return knee;
            }
            knee -= STEP_SECONDS;
            level = before;
        }
        return knee;
    }

    private static double level(Stretch curve, double endSecond) {
        int end = curve.indexAfter(endSecond);
        return curve.mean(curve.indexFrom(endSecond - LEVEL_SECONDS), end);
    }
}
