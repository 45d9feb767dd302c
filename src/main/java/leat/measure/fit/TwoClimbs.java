package leat.measure.fit;

import java.util.Arrays;
import java.util.Optional;

/**
 * Two first-order rises one after the other, each with its own delay: a line that fills and is then
 * boosted. Immutable.
 */
final class TwoClimbs implements CurveModel {

    private static final int SECOND = 4;
    private static final int LEAST_PER_CLIMB = 8;
    private static final int PARTS = 24;

    private final FirstOrderRise rise = new FirstOrderRise();

    @Override
    public int parameters() {
        return SECOND + 3;
    }

    @Override
    public double at(double x, double[] point, double[] slopes) {
        double[] first = new double[rise.parameters()];
        double[] second = new double[rise.parameters()];
        double[] secondPoint = Arrays.copyOfRange(point, SECOND, SECOND + rise.parameters());
        double value = rise.at(x, point, first) + rise.at(x, secondPoint, second);
        System.arraycopy(first, 0, slopes, 0, SECOND);
        System.arraycopy(second, 0, slopes, SECOND, 3);
        return value;
    }

    /** The best fit of two climbs; empty when there are not two that rise one after the other. */
    static Optional<Regression> fit(double[] x, double[] y) {
        double[] best = new double[0];
        double least = Double.POSITIVE_INFINITY;
        TwoClimbs model = new TwoClimbs();
        for (int part = 1; part < PARTS; part++) {
            int split = part * x.length / PARTS;
            if (split >= LEAST_PER_CLIMB && x.length - split >= LEAST_PER_CLIMB) {
                double[] start = start(x, y, split);
                double squares = model.squares(x, y, start);
                if (squares < least) {
                    least = squares;
                    best = start;
                }
            }
        }
        return best.length == 0
                ? Optional.empty()
                : Regression.of(model, x, y, best, 0, 1, 2, 3, 4, 5, 6).filter(TwoClimbs::twice);
    }

    private static double[] start(double[] x, double[] y, int split) {
        double[] first =
                FirstOrderScan.best(Arrays.copyOf(x, split), Arrays.copyOf(y, split), true, y[0]);
        double level = first[FirstOrderRise.BASE] + first[FirstOrderRise.AMPLITUDE];
        double[] second =
                FirstOrderScan.best(
                        Arrays.copyOfRange(x, split, x.length),
                        Arrays.copyOfRange(y, split, x.length),
                        false,
                        level);
        double[] start = Arrays.copyOf(first, SECOND + 3);
        System.arraycopy(second, 0, start, SECOND, 3);
        return start;
    }

    private double squares(double[] x, double[] y, double[] point) {
        double[] slopes = new double[parameters()];
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            double residual = y[i] - at(x[i], point, slopes);
            squares += residual * residual;
        }
        return squares;
    }

    /**
     * Both rise, the second when the first has come by more than half, and to its 90 % on record: a
     * level that creeps is no climb.
     */
    private static boolean twice(Regression fit) {
        double half = fit.parameter(2) + Math.log(2) / fit.parameter(1);
        double reached = fit.parameter(SECOND + 2) + Math.log(10) / fit.parameter(SECOND + 1);
        return fit.parameter(0) >= FopdtFit.LEAST_RISE_PSI
                && fit.parameter(SECOND) >= FopdtFit.LEAST_RISE_PSI
                && fit.parameter(1) > 0
                && fit.parameter(SECOND + 1) > 0
                && fit.parameter(SECOND + 2) > half
                && reached <= fit.x(fit.size() - 1);
    }
}
