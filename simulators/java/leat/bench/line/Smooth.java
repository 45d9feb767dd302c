package leat.bench.line;

/** Ways from 0 to 1 without a kink at either end, so that a solver can step across them. */
final class Smooth {

    private Smooth() {}

    /** 0 up to {@code x} = 0, 1 from {@code x} = 1 on, in between the cubic that starts level. */
    static double step(double x) {
        double inside = Math.max(0, Math.min(1, x));
        return inside * inside * (3 - 2 * inside);
    }

    /** A hump from 0 at {@code x} = 0 over 1 in the middle to 0 at {@code x} = 1. */
    static double hump(double x) {
        if (x <= 0 || x >= 1) {
            return 0;
        }
        double half = 4 * x * (1 - x);
        return half * half * (3 - 2 * half);
    }
}
