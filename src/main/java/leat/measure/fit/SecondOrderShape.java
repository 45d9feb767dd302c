package leat.measure.fit;

/**
 * What the step response of one damping looks like, in units of its final value and of u =
 * frequency times time: the reference levels and the overshoot of IEEE Std 181, read off the curve
 * itself. Immutable.
 */
final class SecondOrderShape {

    private static final double BAND = 0.02;
    private static final int HALVINGS = 60;
    private static final int MOST_LOBES = 10_000;

    private final double damping;

    /**
     * @param damping above 0
     */
    SecondOrderShape(double damping) {
        this.damping = damping;
    }

    boolean overshoots() {
        return damping < 1 && Double.isFinite(peak());
    }

    /** u of the first peak; infinite when there is none. */
    double peak() {
        return damping < 1 ? lobe() : Double.POSITIVE_INFINITY;
    }

    /** From one turning point of the curve to the next. */
    private double lobe() {
        return Math.PI / Math.sqrt(1 - damping * damping);
    }

    /** Height of the first peak above the final value; 0 when there is none. */
    double overshoot() {
        return overshoots() ? Math.max(0, SecondOrderRise.step(damping, peak()) - 1) : 0;
    }

    /** u at which a level between 0 and 1 is first reached. */
    double reach(double level) {
        double high = 1;
        while (SecondOrderRise.step(damping, high) < level && high < peak()) {
            high *= 2;
        }
        return turn(0, Math.min(high, peak()), level);
    }

    /** From 10 to 90 %. */
    double duration() {
        return reach(0.9) - reach(0.1);
    }

    /** u at which the curve enters the band of 2 % to both sides of the final value for good. */
    double settled() {
        if (!overshoots() || overshoot() <= BAND) {
            return reach(1 - BAND);
        }
        double lobe = lobe();
        int last = 1;
        while (last < MOST_LOBES
                && Math.abs(SecondOrderRise.step(damping, (last + 1) * lobe) - 1) > BAND) {
            last++;
        }
        double edge = last % 2 == 1 ? 1 + BAND : 1 - BAND;
        return turn(last * lobe, (last + 1) * lobe, edge);
    }

    /** Settling as IEEE Std 181 counts it: from the 50 % instant on. */
    double settlingFrom50() {
        return settled() - reach(0.5);
    }

    /** The crossing of a level on a piece of the curve that only rises or only falls. */
    private double turn(double from, double to, double level) {
        boolean rising = SecondOrderRise.step(damping, to) > SecondOrderRise.step(damping, from);
        double low = from;
        double high = to;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if ((SecondOrderRise.step(damping, middle) < level) == rising) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }
}
