package leat.measure;

/**
 * Where the boosted pressure left its base, in seconds from the start that was told. The climb is
 * sought from the lowest reading on, so that a pressure still falling from an earlier run is not
 * taken for one, and its foot backwards from there, so that noise is not taken for one either.
 *
 * @param lowest index of the lowest reading around the start; -1 for none
 * @param departed index of the first reading above the base of the climb; -1 for none
 * @param movedSecond when that was; 0 where there was no climb
 * @param doubtSeconds by how much the climb may have begun earlier: a reading, and the time in
 *     which it came out of the noise
 */
record Foot(int lowest, int departed, double movedSecond, double doubtSeconds) {

    private static final double DEPARTED_PSI = 3;
    private static final double LEAST_CLIMB_PSI = 10;

    /** After a restart within seconds the pressure falls on for a while. */
    private static final double FALLS_ON_SECONDS = 3;

    private static final int NEAR = 3;

    static Foot of(Stretch curve, double endSeconds) {
        int lowest = curve.lowest(Math.min(FALLS_ON_SECONDS, endSeconds));
        int departed = lowest < 0 ? -1 : departure(curve, lowest);
        return departed < 0
                ? new Foot(lowest, -1, 0, 0)
                : new Foot(lowest, departed, curve.second(departed), doubt(curve, departed));
    }

    private static int departure(Stretch curve, int lowest) {
        double foot = curve.psi(lowest) + DEPARTED_PSI;
        int climbing = curve.firstTwoAbove(curve.psi(lowest) + LEAST_CLIMB_PSI, lowest);
        return climbing < 0
                ? curve.firstTwoAbove(foot, lowest)
                : curve.lastAtOrBelow(foot, climbing) + 1;
    }

    private static double doubt(Stretch curve, int departed) {
        int after = Math.min(departed + NEAR, curve.size() - 1);
        double seconds = curve.second(after) - curve.second(departed);
        double climbed = curve.psi(after) - curve.psi(departed);
        double hidden = climbed > 0 ? DEPARTED_PSI * seconds / climbed : seconds;
        return curve.interval() + hidden;
    }
}
