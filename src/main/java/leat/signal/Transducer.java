package leat.signal;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * Turns what a device delivers into a reading: raw number, then loop current where the signal is
 * 4-20 mA, then gauge pressure in psi.
 *
 * <p>Loop current is classed by NAMUR NE 43 before it becomes a pressure, so that a broken wire is
 * never read as "0 psi at rest".
 *
 * @param loop raw number to loop current in mA; empty where the raw number is not a loop current
 * @param pressure loop current (or the raw number) to psi
 * @param lowPsi below this a pressure is OUT_OF_RANGE
 * @param highPsi above this a pressure is OUT_OF_RANGE
 */
public record Transducer(Optional<TwoPoint> loop, TwoPoint pressure, double lowPsi, double highPsi)
        implements Conversion {

    private static final double FAILED_LOW_MA = 3.6;
    private static final double BAND_LOW_MA = 3.8;
    private static final double BAND_HIGH_MA = 20.5;

    /** A coarse converter may not reach the end of the band quite. */
    private static final double TOP_MA = 20.45;

    private static final double FAILED_HIGH_MA = 21.0;

    /**
     * Smaller than any pressure but zero, whatever the unit, and than any step of a converter: the
     * mark of a float read in the wrong word order.
     */
    private static final double TINY = 1e-9;

    public Transducer {
        requireNonNull(loop, "loop");
        requireNonNull(pressure, "pressure");
        if (!(lowPsi < highPsi)) {
            throw new IllegalArgumentException(
                    "range must run upwards: " + lowPsi + " to " + highPsi);
        }
    }

    @Override
    public Reading read(Channel channel, long atMicros, double raw) {
        if (!Double.isFinite(raw) || (raw != 0 && Math.abs(raw) < TINY)) {
            return Reading.bad(channel, atMicros, Quality.UNDECODABLE);
        }
        double signal = raw;
        Quality quality = Quality.GOOD;
        if (loop.isPresent()) {
            signal = loop.get().at(raw);
            quality = loopQuality(signal);
        }
        if (!quality.isUsable()) {
            return Reading.bad(channel, atMicros, quality);
        }
        double psi = pressure.at(signal);
        if (!(psi >= lowPsi && psi <= highPsi)) {
            return Reading.bad(channel, atMicros, Quality.OUT_OF_RANGE);
        }
        return new Reading(channel, atMicros, psi, quality);
    }

    private static Quality loopQuality(double milliamps) {
        if (milliamps <= FAILED_LOW_MA) {
            return Quality.LOOP_BROKEN;
        }
        if (milliamps < BAND_LOW_MA) {
            return Quality.LOOP_BELOW_BAND;
        }
        if (milliamps <= BAND_HIGH_MA) {
            return milliamps < TOP_MA ? Quality.GOOD : Quality.AT_TOP;
        }
        return milliamps < FAILED_HIGH_MA ? Quality.LOOP_ABOVE_BAND : Quality.LOOP_SHORTED;
    }
}
