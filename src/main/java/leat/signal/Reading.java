package leat.signal;

import static java.util.Objects.requireNonNull;

/**
 * One sample of one channel. Construction rejects a number that is not finite, and a number under a
 * BAD quality: a bad number never travels as a number.
 *
 * @param channel the tap it was taken at
 * @param atMicros UTC instant of sampling in microseconds, stamped by the source
 * @param value gauge pressure in psi, or 0 / 1 for a contact; slightly negative pressure is legal
 *     (transducer zero offset, vacuum); 0 and without meaning when the quality is BAD
 * @param quality how far to trust it
 */
public record Reading(Channel channel, long atMicros, double value, Quality quality)
        implements Input {

    public Reading {
        requireNonNull(channel, "channel");
        requireNonNull(quality, "quality");
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(
                    channel + " at " + atMicros + ": value not finite: " + value);
        }
        if (!quality.isUsable() && value != 0) {
            throw new IllegalArgumentException(
                    channel
                            + " at "
                            + atMicros
                            + ": a reading of quality "
                            + quality
                            + " carries no number");
        }
    }

    public static Reading good(Channel channel, long atMicros, double value) {
        return new Reading(channel, atMicros, value, Quality.GOOD);
    }

    public static Reading bad(Channel channel, long atMicros, Quality quality) {
        return new Reading(channel, atMicros, 0, quality);
    }

    @Override
    public void to(Receiver receiver) {
        receiver.reading(this);
    }
}
