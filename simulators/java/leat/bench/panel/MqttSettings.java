package leat.bench.panel;

import static java.util.Objects.requireNonNull;

/**
 * Where and how an MQTT panel publishes.
 *
 * @param url the broker, {@code tcp://host:port}
 * @param prefix of its topics, such as {@code boatyard}; no slash at the end
 * @param payload how a value is written
 * @param qos 0, 1 or 2
 * @param publishHz how often each value is published, 0.1 to 100 a second
 */
public record MqttSettings(String url, String prefix, Payload payload, int qos, double publishHz) {

    public MqttSettings {
        requireNonNull(url, "url");
        requireNonNull(prefix, "prefix");
        requireNonNull(payload, "payload");
        if (qos < 0 || qos > 2) {
            throw new IllegalArgumentException("qos must be 0, 1 or 2: " + qos);
        }
        if (!(publishHz >= 0.1 && publishHz <= 100)) {
            throw new IllegalArgumentException("publish rate must be 0.1 to 100: " + publishHz);
        }
    }

    /** How a value is written. */
    public enum Payload {
        /** {@code 99.87}; a contact as 0 or 1. */
        PLAIN,
        /** {@code {"psi":99.87,"t":"2026-01-05T06:00:00.050Z"}}; a contact under "on". */
        JSON
    }
}
