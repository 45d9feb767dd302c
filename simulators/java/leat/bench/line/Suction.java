package leat.bench.line;

import leat.bench.water.SuctionHead;
import leat.bench.water.Water;

/**
 * How well the booster's chambers fill: fully while the suction head suffices, less and less as the
 * water comes near to boiling. Immutable. Both heads invented.
 */
record Suction(Water water) {

    private static final double REQUIRED_METRES = 4;
    private static final double DRY_METRES = 1;

    /** Share filled with water, at a gauge pressure in Pa; velocity head is left out: 2 cm. */
    double filled(double pressure) {
        double available = SuctionHead.available(pressure, 0, water);
        return Smooth.step((available - DRY_METRES) / (REQUIRED_METRES - DRY_METRES));
    }
}
