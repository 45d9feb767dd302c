package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * One connection as the rest of the file may refer to it, be it well written or not.
 *
 * @param name its name
 * @param at where it stands
 * @param kind what kind it is
 * @param settings what was read; empty when it is not well written
 */
record Connection(String name, Cursor at, Protocol kind, Optional<ConnectionSettings> settings) {

    Connection {
        requireNonNull(name, "name");
        requireNonNull(at, "at");
        requireNonNull(kind, "kind");
        requireNonNull(settings, "settings");
    }

    /** With this topic for leat's own status, if it is a broker and has none yet. */
    Connection withStatusTopic(String topic) {
        return new Connection(name, at, kind, settings.map(read -> read.withStatusTopic(topic)));
    }

    /** What kind of connection it is. */
    enum Protocol {
        MODBUS_TCP("a Modbus TCP device"),
        MQTT("an MQTT broker"),
        /** Reported already; nothing more is said about those who refer to it. */
        UNCLEAR("no connection");

        private final String words;

        Protocol(String words) {
            this.words = words;
        }

        String words() {
            return words;
        }
    }
}
