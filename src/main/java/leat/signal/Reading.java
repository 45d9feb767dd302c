package leat.signal;

import static java.util.Objects.requireNonNull;

import java.util.OptionalLong;

/**
 * One sample of one channel. Construction rejects a number that is not finite, and a number under a
 * BAD quality: a bad number never travels as a number.
 *
 * @param channel the tap it was taken at
 * @param atMicros when leat took it, by leat's own clock, microseconds UTC
 * @param value gauge pressure in psi, or 0 / 1 for a contact; slightly negative pressure is legal
 *     (transducer zero offset, vacuum); 0 and without meaning when the quality is BAD
 * @param quality how far to trust it
 * @param claimedMicros when it was sampled by the sensor's own clock, microseconds UTC; empty for a
 *     sensor that does not say. It may be any time: {@link SensorClock} looks whether to believe it
 */
public record Reading(
        Channel channel, long atMicros, double value, Quality quality, OptionalLong claimedMicros)
        implements Input {

    public Reading {
        requireNonNull(channel, "channel");
        requireNonNull(quality, "quality");
        requireNonNull(claimedMicros, "claimedMicros");
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
        value = quality.isUsable() ? value : 0; // no negative zero either
    }

    /** Of a sensor that does not say when it sampled. */
    public Reading(Channel channel, long atMicros, double value, Quality quality) {
        this(channel, atMicros, value, quality, OptionalLong.empty());
    }

    public static Reading good(Channel channel, long atMicros, double value) {
        return new Reading(channel, atMicros, value, Quality.GOOD);
    }

    public static Reading bad(Channel channel, long atMicros, Quality quality) {
        return new Reading(channel, atMicros, 0, quality);
    }

    /** The same, sampled at a time that the sensor says. */
    public Reading claiming(long micros) {
        return new Reading(channel, atMicros, value, quality, OptionalLong.of(micros));
    }

    /** The same, taken at another time; what the sensor claims stays. No copy for the same time. */
    @Override
    public Reading at(long micros) {
        return micros == atMicros
                ? this
                : new Reading(channel, micros, value, quality, claimedMicros);
    }

    @Override
    public void to(Receiver receiver) {
        receiver.reading(this);
    }
}
