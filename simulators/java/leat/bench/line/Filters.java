package leat.bench.line;

import leat.bench.water.Resistance;
import leat.bench.water.Units;

/** The filters before the intensifier: they lose more the more they hold. Thread-confined. */
final class Filters {

    private static final double LINEAR_SHARE = 0.5;

    /** Clogged as badly as the bench makes them, they lose that many times more; invented. */
    private static final double MOST_CLOGGED = 18;

    private final Resistance clean;
    private Resistance now;

    Filters(Build build) {
        clean =
                Resistance.through(
                        Build.RATED_LITRES_PER_MINUTE * Units.LITRE_PER_MINUTE,
                        build.filterLossPsi() * Units.PSI,
                        LINEAR_SHARE);
        now = clean;
    }

    /** Flow, m3/s, at a pressure difference of either sign. */
    double flow(double difference) {
        return now.flow(difference);
    }

    void clog(double severity) {
        now = clean.times(1 + (MOST_CLOGGED - 1) * severity);
    }
}
