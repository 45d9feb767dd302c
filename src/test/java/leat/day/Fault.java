package leat.day;

import leat.signal.Channel;
import leat.signal.Quality;
import leat.signal.Reading;

/** What is wrong with a machine's water for some minutes, as its two gauges show it. */
enum Fault {
    NONE(42, 100),
    WEAK_SUPPLY(20, 100),
    POOR_SUPPLY(12, 100),
    STARVED(2, 100),
    LOW_LEVEL(42, 86),
    WEAK_BOOSTER(44, 75),
    HIGH_LEVEL(42, 130),
    BLOCKED_BYPASS(42, 150),
    BROKEN_LOOP(Double.NaN, 100);

    private final double inletPsi;
    private final double boostedPsi;

    Fault(double inletPsi, double boostedPsi) {
        this.inletPsi = inletPsi;
        this.boostedPsi = boostedPsi;
    }

    /**
     * @param noise from -1 to 1
     */
    Reading inlet(long atMicros, double noise) {
        return Double.isNaN(inletPsi)
                ? Reading.bad(Channel.INLET, atMicros, Quality.LOOP_BROKEN)
                : Reading.good(Channel.INLET, atMicros, inletPsi + 0.2 * noise);
    }

    Reading boosted(long atMicros, double noise) {
        return Reading.good(Channel.BOOSTED, atMicros, boostedPsi + 0.3 * noise);
    }
}
