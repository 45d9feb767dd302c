package leat.bench.panel;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What a {@code site.yaml} has to say to read a panel.
 *
 * @param connection name of the connection
 * @param settings the connection's settings as one line of YAML
 * @param machines for each machine its channels by name, each as lines of YAML
 */
public record Wiring(String connection, String settings, Map<String, Channels> machines) {

    public Wiring {
        requireNonNull(connection, "connection");
        requireNonNull(settings, "settings");
        machines = Collections.unmodifiableMap(new LinkedHashMap<>(machines));
    }

    /**
     * The channels of one machine.
     *
     * @param lines for each channel the lines below its name, without indent
     */
    public record Channels(Map<String, String> lines) {
        public Channels {
            lines = Collections.unmodifiableMap(new LinkedHashMap<>(lines));
        }
    }
}
