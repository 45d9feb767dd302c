package leat.bench.line;

/**
 * What the house does to the supply of a sound machine: it drifts within seconds, wanders through
 * the day, and dips while others in the shop draw water. All of it is spread by chance; its laws
 * are invented. Immutable.
 *
 * @param driftPsi the supply drifts by at most this up and down within a minute, 0 to 5 psi
 * @param wanderPsi it wanders by at most this up and down within hours, 0 to 20 psi
 * @param dipsPerHour how many dips an hour has, 0 to 60
 * @param dipPsi depth of the deepest; the others have half of it or more, 0 to 30 psi
 * @param dipSeconds how long one lasts on average, from half to one and a half times as long; 1 to
 *     600
 */
public record House(
        double driftPsi, double wanderPsi, double dipsPerHour, double dipPsi, double dipSeconds) {

    private static final double USUAL_DIP_SECONDS = 8;

    /** A house whose supply stands still. */
    public static final House STILL = new House(0, 0, 0, 0, USUAL_DIP_SECONDS);

    /** A house in which nobody else draws water. */
    public static final House QUIET = new House(0.5, 0, 0, 0, USUAL_DIP_SECONDS);

    public House {
        requireWithin("drift", driftPsi, 0, 5);
        requireWithin("wander", wanderPsi, 0, 20);
        requireWithin("dips an hour", dipsPerHour, 0, 60);
        requireWithin("depth of a dip", dipPsi, 0, 30);
        requireWithin("length of a dip", dipSeconds, 1, 600);
    }

    private static void requireWithin(String what, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new IllegalArgumentException(
                    what + " is " + value + ", allowed is " + low + " to " + high);
        }
    }
}
