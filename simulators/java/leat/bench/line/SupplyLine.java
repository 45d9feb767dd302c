package leat.bench.line;

import leat.bench.water.Pipe;
import leat.bench.water.Resistance;
import leat.bench.water.Units;
import leat.bench.water.Water;

/**
 * From the main to the inlet gauge: a pipe whose water takes time to speed up, a hand valve and a
 * strainer. Thread-confined. Figures invented where no law is named.
 */
final class SupplyLine {

    /** A 1 inch steel pipe, schedule 40, 10 m of it. */
    static final Pipe PIPE = new Pipe(10, 26.64e-3, 3.38e-3, 0.046e-3, 200e9);

    /** Backflow preventer and bends seep rather than throttle: half of their loss is linear. */
    private static final double LINEAR_SHARE = 0.5;

    private static final double STRAINER_LINEAR_SHARE = 0.3;

    /** A strainer clogged as badly as the bench makes it loses that many times more. */
    private static final double MOST_CLOGGED = 70;

    /** How fast a hand valve that is shut stops the water. */
    private static final double SHUT_SECONDS = 0.1;

    private final double inertance;
    private final Resistance withoutStrainer;
    private final Resistance strainer;
    private Resistance whole;
    private boolean shut;

    SupplyLine(Build build, Water water) {
        double rated = Build.RATED_LITRES_PER_MINUTE * Units.LITRE_PER_MINUTE;
        inertance = PIPE.inertance(water);
        withoutStrainer =
                Resistance.through(rated, build.mainLossPsi() * Units.PSI, LINEAR_SHARE)
                        .then(Resistance.through(rated, PIPE.loss(rated, water), LINEAR_SHARE));
        strainer =
                Resistance.through(
                        rated, build.strainerLossPsi() * Units.PSI, STRAINER_LINEAR_SHARE);
        whole = withoutStrainer.then(strainer);
    }

    /** How fast the flow changes, m3/s2, between two gauge pressures. */
    double acceleration(double flow, double supply, double inlet) {
        return shut ? -flow / SHUT_SECONDS : (supply - inlet - whole.loss(flow)) / inertance;
    }

    /** Pressure lost at a flow, Pa. */
    double loss(double flow) {
        return whole.loss(flow);
    }

    void clog(double severity) {
        whole = withoutStrainer.then(strainer.times(1 + (MOST_CLOGGED - 1) * severity));
    }

    void shut(double severity) {
        shut = severity > 0;
    }
}
