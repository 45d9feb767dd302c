package leat.bench.line;

import static java.util.Objects.requireNonNull;

/**
 * How a healthy line is set up.
 *
 * @param supplyPsi house pressure with nothing drawn, 10 to 150 psi
 * @param setPsi level that the regulator holds, 40 to 150 psi
 * @param build how this machine is built
 */
public record LineSettings(double supplyPsi, double setPsi, Build build) {

    /** A machine of the invented boatyard. */
    public static final LineSettings USUAL = new LineSettings(42, 100);

    public LineSettings {
        requireNonNull(build, "build");
        requireWithin("supply", supplyPsi, 10, 150);
        requireWithin("set level", setPsi, 40, 150);
    }

    /** A line of the usual build. */
    public LineSettings(double supplyPsi, double setPsi) {
        this(supplyPsi, setPsi, Build.USUAL);
    }

    private static void requireWithin(String what, double psi, double low, double high) {
        if (!(psi >= low && psi <= high)) {
            throw new IllegalArgumentException(
                    what + " is " + psi + " psi, allowed is " + low + " to " + high + " psi");
        }
    }
}
