package leat.bench.line;

/**
 * Chance without memory: the draw of a number from a stream depends on the seed and that number
 * only, so that nothing a model computes ahead and throws away can change what comes later.
 * Immutable.
 *
 * @param seed of all streams
 */
record Chance(long seed) {

    /** What is drawn for; each draws from a stream of its own. */
    enum Stream {
        SUPPLY,
        WANDER,
        DIP_ONSET,
        DIP_DEPTH,
        DIP_LENGTH,
        COUPLING_DWELL,
        COUPLING_GRIP,
        REGULATOR_FRICTION,
        REGULATOR_DIRT,
        STROKE_LENGTH,
        STROKE_DEPTH,
        BUILD
    }

    /** Draw of that number, evenly from 0 to below 1. */
    double draw(Stream stream, long number) {
        long mixed = mix(seed + (stream.ordinal() + 1) * 0x9E3779B97F4A7C15L);
        mixed = mix(mixed + number * 0xD1B54A32D192ED03L);
        return (mixed >>> 11) * 0x1.0p-53;
    }

    /** Likewise from {@code low} to below {@code high}. */
    double draw(Stream stream, long number, double low, double high) {
        return low + (high - low) * draw(stream, number);
    }

    /** The finisher of SplitMix64: every bit of the seed moves every bit of the draw. */
    private static long mix(long bits) {
        long mixed = (bits ^ (bits >>> 30)) * 0xBF58476D1CE4E5B9L;
        mixed = (mixed ^ (mixed >>> 27)) * 0x94D049BB133111EBL;
        return mixed ^ (mixed >>> 31);
    }
}
