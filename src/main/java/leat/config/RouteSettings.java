package leat.config;

import static java.util.Objects.requireNonNull;

import leat.rule.Grade;

/** Where messages go. */
public sealed interface RouteSettings {

    String name();

    /** Messages of a lower grade are not sent this way. */
    Grade atLeast();

    /**
     * The program's own log, which under a service manager is the journal of the host.
     *
     * @param name the name under {@code routes}
     * @param atLeast lowest grade
     */
    record Log(String name, Grade atLeast) implements RouteSettings {
        public Log {
            requireNonNull(name, "name");
            requireNonNull(atLeast, "atLeast");
        }
    }

    /**
     * An MQTT broker: retained state per alarm, and a stream of events.
     *
     * @param name the name under {@code routes}
     * @param atLeast lowest grade
     * @param connection name of an MQTT connection
     * @param topicPrefix first levels of the topics, such as {@code leat/boatyard}
     */
    record Mqtt(String name, Grade atLeast, String connection, String topicPrefix)
            implements RouteSettings {
        public Mqtt {
            requireNonNull(name, "name");
            requireNonNull(atLeast, "atLeast");
            requireNonNull(connection, "connection");
            requireNonNull(topicPrefix, "topicPrefix");
        }
    }
}
