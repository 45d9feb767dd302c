package leat.measure.fit;

/**
 * Finds where a first-order rise with delay fits readings best, without a first guess. Immutable.
 *
 * <p>For a given rate, and between two given neighbours of which the later is the first reading of
 * the rise, the best amplitude, delay and base are known in closed form from a few sums over the
 * readings. The sums of all pairs of neighbours come from one pass from the end to the beginning,
 * so that all delays are looked at in the time of one; what is left is a search over the rate.
 */
final class FirstOrderScan {

    private static final double FACTOR = 1.25;
    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;
    private static final int REFINED = 24;
    private static final int MOST_RATES = 80;

    private final double[] x;
    private final double[] y;
    private final double base;
    private final double[] best = new double[4];
    private double least = Double.POSITIVE_INFINITY;

    private FirstOrderScan(double[] x, double[] y) {
        this.x = x;
        this.y = y;
        base = y[0];
    }

    /**
     * The best point, in the order of {@link FirstOrderRise}.
     *
     * @param x rising, at least three
     */
    static double[] best(double[] x, double[] y) {
        FirstOrderScan scan = new FirstOrderScan(x, y);
        double span = x[x.length - 1] - x[0];
        double rate = 0.5 / span;
        double bestRate = rate;
        double leastOfRates = Double.POSITIVE_INFINITY;
        double fastest = 8 * x.length / span;
        for (int i = 0; i < MOST_RATES && rate < fastest; i++) {
            double squares = scan.squares(rate);
            if (squares < leastOfRates) {
                leastOfRates = squares;
                bestRate = rate;
            }
            rate *= FACTOR;
        }
        scan.refine(Math.log(bestRate / FACTOR), Math.log(bestRate * FACTOR));
        return scan.best;
    }

    private void refine(double from, double to) {
        double low = from;
        double high = to;
        for (int i = 0; i < REFINED; i++) {
            double left = high - GOLDEN * (high - low);
            double right = low + GOLDEN * (high - low);
            if (squares(Math.exp(left)) < squares(Math.exp(right))) {
                high = right;
            } else {
                low = left;
            }
        }
    }

    /** Least sum of squares at a rate; remembers the best point. */
    private double squares(double rate) {
        double before = 0;
        double beforeSquares = 0;
        for (double value : y) {
            before += value - base;
            beforeSquares += (value - base) * (value - base);
        }
        double total = before;
        double totalSquares = beforeSquares;
        double decay = 0;
        double decaySquares = 0;
        double sum = 0;
        double product = 0;
        double leastHere = Double.POSITIVE_INFINITY;
        for (int j = x.length - 1; j > 0; j--) {
            double ahead = j + 1 < x.length ? Math.exp(-rate * (x[j + 1] - x[j])) : 0;
            double z = y[j] - base;
            decay = 1 + ahead * decay;
            decaySquares = 1 + ahead * ahead * decaySquares;
            product = z + ahead * product;
            sum += z;
            before -= z;
            int n = x.length - j;
            if (n < 2) {
                continue;
            }
            double share = share(n, decay, decaySquares, sum, product, before / j);
            double earliest = Math.exp(-rate * (x[j] - x[j - 1]));
            share = Math.max(earliest, Math.min(1, share));
            double once = n - share * decay;
            double twice = n - 2 * share * decay + share * share * decaySquares;
            double with = sum - share * product;
            double determinant = x.length * twice - once * once;
            double level = (total * twice - with * once) / determinant;
            double amplitude = (x.length * with - once * total) / determinant;
            double squares = totalSquares - level * total - amplitude * with;
            leastHere = Math.min(leastHere, squares);
            if (squares < least) {
                least = squares;
                best[FirstOrderRise.AMPLITUDE] = amplitude;
                best[FirstOrderRise.RATE] = rate;
                best[FirstOrderRise.DELAY] = x[j] + Math.log(share) / rate;
                best[FirstOrderRise.BASE] = base + level;
            }
        }
        return leastHere;
    }

    /**
     * What of the rise is still to come at its first reading, if nothing bounds the delay; 1 when
     * the readings do not say.
     */
    private double share(
            int n,
            double decay,
            double decaySquares,
            double sum,
            double product,
            double meanBefore) {
        double determinant = n * decaySquares - decay * decay;
        double top = (sum * decaySquares - product * decay) / determinant;
        double depth = (sum * decay - product * n) / determinant;
        double share = depth / (top - meanBefore);
        return Double.isFinite(share) ? share : 1;
    }
}
