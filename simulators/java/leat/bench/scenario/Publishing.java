package leat.bench.scenario;

import java.time.Duration;

/**
 * How the machines' values get to an MQTT broker. Immutable.
 *
 * @param every time between two messages of one value, 50 ms to 1 h
 * @param jitter a message is late by chance, by at most this, zero to 10 min; those of one value
 *     keep their order
 * @param lostPercent so many of 100 messages never leave, 0 to 100
 */
public record Publishing(Duration every, Duration jitter, double lostPercent) {

    /** Ten messages a second, none late, none lost. */
    public static final Publishing USUAL = new Publishing(Duration.ofMillis(100), Duration.ZERO, 0);

    public Publishing {
        requireWithin("every", every.toMillis(), 50, 3_600_000);
        requireWithin("jitter", jitter.toMillis(), 0, 600_000);
        requireWithin("lost", lostPercent, 0, 100);
    }

    private static void requireWithin(String what, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new IllegalArgumentException(
                    what + " is " + value + ", allowed is " + low + " to " + high);
        }
    }
}
