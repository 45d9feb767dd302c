package leat.bench.panel;

import static java.util.Objects.requireNonNull;

import leat.bench.scenario.Publishing;
import leat.bench.scenario.Scenario;

/**
 * Where and how an MQTT panel publishes.
 *
 * @param url the broker, {@code tcp://host:port}
 * @param prefix of its topics, such as {@code boatyard}; no slash at the end
 * @param payload how a value is written
 * @param qos 0, 1 or 2
 * @param publishHz how often each value is published, 100 a second to once an hour
 * @param jitterMicros a message is late by chance, by at most this, 0 to 10 min
 * @param lostPercent so many of 100 messages never leave, 0 to 100
 * @param seed of what is late and lost
 */
public record MqttSettings(
        String url,
        String prefix,
        Payload payload,
        int qos,
        double publishHz,
        long jitterMicros,
        double lostPercent,
        long seed) {

    private static final double LOWEST_HZ = 1 / 3_600.0;
    private static final long MOST_JITTER_MICROS = 600_000_000;

    public MqttSettings {
        requireNonNull(url, "url");
        requireNonNull(prefix, "prefix");
        requireNonNull(payload, "payload");
        if (qos < 0 || qos > 2) {
            throw new IllegalArgumentException("qos must be 0, 1 or 2: " + qos);
        }
        if (!(publishHz >= LOWEST_HZ && publishHz <= 100)) {
            throw new IllegalArgumentException("publish rate must be up to 100: " + publishHz);
        }
        if (jitterMicros < 0 || jitterMicros > MOST_JITTER_MICROS) {
            throw new IllegalArgumentException("jitter must be 0 to 10 min: " + jitterMicros);
        }
        if (!(lostPercent >= 0 && lostPercent <= 100)) {
            throw new IllegalArgumentException("lost must be 0 to 100 %: " + lostPercent);
        }
    }

    /** One that loses nothing and is never late. */
    public MqttSettings(String url, String prefix, Payload payload, int qos, double publishHz) {
        this(url, prefix, payload, qos, publishHz, 0, 0, 0);
    }

    /** One that publishes as a scenario says. */
    public static MqttSettings of(
            String url, String prefix, Payload payload, int qos, Scenario scenario) {
        Publishing publishing = scenario.publishing();
        return new MqttSettings(
                url,
                prefix,
                payload,
                qos,
                1e9 / publishing.every().toNanos(),
                publishing.jitter().toNanos() / 1_000,
                publishing.lostPercent(),
                scenario.seed());
    }

    /** How a value is written. */
    public enum Payload {
        /** {@code 99.87}; a contact as 0 or 1. */
        PLAIN,
        /** {@code {"psi":99.87,"t":"2026-01-05T06:00:00.050Z"}}; a contact under "on". */
        JSON
    }
}
