package leat.bench.scenario;

import java.time.Duration;

/**
 * What the house does to a sound machine's supply: it wanders through the day, and dips while
 * others in the shop draw water. Wander and dips are spread by chance; their laws are invented.
 * Immutable.
 *
 * @param wanderPsi the supply wanders by at most this up and down, 0 to 20 psi
 * @param dipsPerHour how many dips an hour has, 0 to 60
 * @param dipPsi depth of the deepest; the others have half of it or more, 0 to 30 psi
 * @param dipLasts how long one lasts on average, 1 s to 10 min; zero where there is none
 */
public record House(double wanderPsi, int dipsPerHour, double dipPsi, Duration dipLasts) {

    /** A house whose supply stands still. */
    public static final House QUIET = new House(0, 0, 0, Duration.ZERO);

    private static final long HOUR = 3_600_000_000L;

    /** The wander turns at random heights that lie so far apart. */
    private static final long WANDER_MICROS = 2 * HOUR;

    private static final int DRAWS_A_DIP = 3;

    public House {
        requireWithin("wander", wanderPsi, 0, 20);
        requireWithin("dips an hour", dipsPerHour, 0, 60);
        requireWithin("depth of a dip", dipPsi, 0, 30);
        if (dipsPerHour > 0) {
            requireWithin("length of a dip", dipLasts.toMillis() / 1e3, 1, 600);
        }
    }

    private static void requireWithin(String what, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new IllegalArgumentException(
                    what + " is " + value + ", allowed is " + low + " to " + high);
        }
    }

    boolean isQuiet() {
        return wanderPsi == 0 && dipsPerHour == 0;
    }

    /**
     * How far the supply is from its usual pressure, psi.
     *
     * @param micros since the start of the scenario
     */
    double psi(long micros, long seed) {
        return wander(micros, seed) - dip(micros, seed);
    }

    private double wander(long micros, long seed) {
        long knot = Math.floorDiv(micros, WANDER_MICROS);
        double share = (double) (micros - knot * WANDER_MICROS) / WANDER_MICROS;
        double smooth = share * share * (3 - 2 * share);
        double before = 2 * Chance.draw(seed, 2 * knot) - 1;
        double after = 2 * Chance.draw(seed, 2 * (knot + 1)) - 1;
        return wanderPsi * (before + (after - before) * smooth);
    }

    /** Two dips at once are as deep as the deeper. */
    private double dip(long micros, long seed) {
        long hour = micros / HOUR;
        double deepest = 0;
        for (int i = 0; i < dipsPerHour; i++) {
            long number = (hour * dipsPerHour + i) * DRAWS_A_DIP;
            long other = seed + 1;
            double lasts = dipLasts.toNanos() / 1e3 * (0.5 + Chance.draw(other, number));
            double begins = (HOUR - lasts) * Chance.draw(other, number + 1);
            double since = micros - hour * HOUR - begins;
            if (since >= 0 && since < lasts) {
                double depth = dipPsi * (0.5 + 0.5 * Chance.draw(other, number + 2));
                deepest = Math.max(deepest, depth);
            }
        }
        return deepest;
    }
}
