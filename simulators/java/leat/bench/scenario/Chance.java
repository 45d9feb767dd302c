package leat.bench.scenario;

/** Chance that is found again: the same seed and number always give the same draw. Stateless. */
final class Chance {

    private static final long STEP = 0x9E3779B97F4A7C15L;
    private static final double UNIT = 0x1.0p-53;

    private Chance() {}

    /** Spreads neighbouring seeds, whose first draws would be alike. */
    static long mix(long seed) {
        long mixed = (seed ^ (seed >>> 30)) * 0xBF58476D1CE4E5B9L;
        mixed = (mixed ^ (mixed >>> 27)) * 0x94D049BB133111EBL;
        return mixed ^ (mixed >>> 31);
    }

    /** An even draw from 0 to 1. */
    static double draw(long seed, long number) {
        return (mix(mix(seed) + STEP * (number + 1)) >>> 11) * UNIT;
    }
}
