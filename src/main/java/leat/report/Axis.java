package leat.report;

/**
 * One axis of a plot: a range of values laid over a range of pixels, with round marks.
 *
 * @param from lowest value
 * @param to highest value, above {@code from}
 * @param pixelFrom where the lowest value stands
 * @param pixelTo where the highest value stands
 */
record Axis(double from, double to, double pixelFrom, double pixelTo) {

    Axis {
        if (!(from < to)) {
            throw new IllegalArgumentException("an axis runs upwards: " + from + " to " + to);
        }
    }

    double pixel(double value) {
        return pixelFrom + (value - from) / (to - from) * (pixelTo - pixelFrom);
    }

    /** A step of 1, 2 or 5 times a power of ten that gives at most so many marks. */
    double step(int atMost) {
        double rough = (to - from) / atMost;
        double power = Math.pow(10, Math.floor(Math.log10(rough)));
        for (double factor : new double[] {1, 2, 5}) {
            if (power * factor >= rough) {
                return power * factor;
            }
        }
        return power * 10;
    }
}
