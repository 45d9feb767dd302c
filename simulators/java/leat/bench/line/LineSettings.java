package leat.bench.line;

/**
 * How a healthy line is set up.
 *
 * @param supplyPsi house pressure with nothing drawn, 10 to 150 psi
 * @param setPsi level that the regulator holds, 40 to 150 psi
 */
public record LineSettings(double supplyPsi, double setPsi) {

    /** A machine of the invented boatyard. */
    public static final LineSettings USUAL = new LineSettings(42, 100);

    public LineSettings {
        requireWithin("supply", supplyPsi, 10, 150);
        requireWithin("set level", setPsi, 40, 150);
    }

    private static void requireWithin(String what, double psi, double low, double high) {
        if (!(psi >= low && psi <= high)) {
            throw new IllegalArgumentException(
                    what + " is " + psi + " psi, allowed is " + low + " to " + high + " psi");
        }
    }
}
