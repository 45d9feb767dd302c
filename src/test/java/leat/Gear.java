package leat;

import java.security.SecureRandom;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;

/**
 * How much of a test runs: the everyday gear has every kind of thing in little, with fixed seeds;
 * the thorough gear ({@code mvn -B verify -Pthorough}) the same with more seeds, months and kills,
 * the further seeds drawn anew each time. A drawn seed stands in the name of its test, so that a
 * failure can be played again with {@code -Dleat.seed=}. Immutable.
 */
public final class Gear {

    /** The tag of a test that runs in the thorough gear alone. */
    public static final String THOROUGH = "thorough";

    private static final boolean IS_THOROUGH = Boolean.getBoolean("leat.thorough");

    private Gear() {}

    public static boolean isThorough() {
        return IS_THOROUGH;
    }

    /** A size: so many seeds, nights or kills by day, so many in the thorough gear. */
    public static int of(int everyday, int thorough) {
        return IS_THOROUGH ? thorough : everyday;
    }

    /**
     * How many cases a statement of 95 % coverage is tried on; their seeds are fixed in both gears.
     */
    public static int cases() {
        return of(250, 1_000);
    }

    /**
     * How much further from 95 % a share of {@link #cases} may lie than one of 1,000 cases: the
     * difference of three standard deviations of the binomial distribution, 3 sqrt(0.95 · 0.05 /
     * n).
     */
    public static double slack() {
        return 3 * (Math.sqrt(0.95 * 0.05 / cases()) - Math.sqrt(0.95 * 0.05 / 1_000));
    }

    /**
     * The largest share of {@link #cases} that may hold where 98 % of 1,000 may: by day at least
     * one of 250 must miss, which honest intervals of 95 % fail to do once in 300,000 times.
     */
    public static double most() {
        return of(249, 980) / (double) cases();
    }

    /** One seed for a test of many choices: 1 by day, drawn in the thorough gear. */
    public static long seed() {
        return Long.getLong(
                "leat.seed", IS_THOROUGH ? new SecureRandom().nextInt(1_000, 1_000_000) : 1);
    }

    /**
     * Cases of which each takes time: every so many-th by day, the first among them; in the
     * thorough gear all.
     */
    public static <T> List<T> everyNth(int step, List<T> cases) {
        return IntStream.range(0, cases.size())
                .filter(i -> IS_THOROUGH || i % step == 0)
                .mapToObj(cases::get)
                .toList();
    }

    /**
     * Seeds 1, 2, … by day; in the thorough gear the same and then drawn ones. For laws, which hold
     * for every seed; a statistical bound takes fixed seeds in both gears. With {@code
     * -Dleat.seed=} that one alone.
     */
    public static LongStream seeds(int everyday, int thorough) {
        Long one = Long.getLong("leat.seed");
        if (one != null) {
            return LongStream.of(one);
        }
        LongStream fixed = LongStream.rangeClosed(1, everyday);
        if (!IS_THOROUGH) {
            return fixed;
        }
        LongStream drawn =
                new SecureRandom().longs(Math.max(0, thorough - everyday), 1_000, 1_000_000_000);
        return LongStream.concat(fixed, drawn);
    }
}
