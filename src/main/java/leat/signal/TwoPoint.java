package leat.signal;

/**
 * A straight line through two points, such as 4 mA reads 0 psi, 20 mA reads 200 psi.
 *
 * @param x1 first input
 * @param y1 what it stands for
 * @param x2 second input, not equal to the first
 * @param y2 what it stands for
 */
public record TwoPoint(double x1, double y1, double x2, double y2) {

    public static final TwoPoint IDENTITY = new TwoPoint(0, 0, 1, 1);

    public TwoPoint {
        if (!(Double.isFinite(x1)
                && Double.isFinite(y1)
                && Double.isFinite(x2)
                && Double.isFinite(y2))) {
            throw new IllegalArgumentException("scaling points must be finite numbers");
        }
        if (x1 == x2 || y1 == y2) {
            throw new IllegalArgumentException(
                    "two scaling points must differ in both of their numbers");
        }
    }

    public double at(double x) {
        return y1 + (x - x1) * (y2 - y1) / (x2 - x1);
    }

    /** The input that stands for {@code y}. */
    public double inputFor(double y) {
        return x1 + (y - y1) * (x2 - x1) / (y2 - y1);
    }
}
