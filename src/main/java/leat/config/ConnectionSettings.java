package leat.config;

import java.time.Duration;
import java.util.Optional;
import leat.tls.Trust;

/** A way to the field: one Modbus TCP device or gateway, or one MQTT broker. */
public sealed interface ConnectionSettings {

    String name();

    /** With this topic for leat's own status, if it is a broker and has none yet. */
    ConnectionSettings withStatusTopic(String topic);

    /**
     * A Modbus TCP device or gateway.
     *
     * @param name the name under {@code connections}
     * @param host name or address; an address is resolved without a name server
     * @param port TCP port
     * @param poll period between two reads of every channel
     * @param timeout how long to wait for a connection and for each reply
     * @param reconnectMax longest pause between two attempts to connect
     */
    record ModbusTcp(
            String name,
            String host,
            int port,
            Duration poll,
            Duration timeout,
            Duration reconnectMax)
            implements ConnectionSettings {

        @Override
        public ConnectionSettings withStatusTopic(String topic) {
            return this;
        }
    }

    /**
     * An MQTT 3.1.1 broker.
     *
     * @param name the name under {@code connections}
     * @param url {@code tcp://host:port} or {@code ssl://host:port}
     * @param clientId MQTT client id; unique at the broker
     * @param user user name, if the broker asks for one
     * @param password password, if the broker asks for one
     * @param trust whose signature under the broker's certificate counts, with {@code ssl://}
     * @param statusTopic topic of leat's own retained "online" and, by last will, "offline"; empty
     *     for none, where no route uses the connection
     * @param keepAlive MQTT keep alive
     * @param reconnectMax longest pause between two attempts to connect
     */
    record Mqtt(
            String name,
            String url,
            String clientId,
            Optional<String> user,
            Optional<Secret> password,
            Trust trust,
            Optional<String> statusTopic,
            Duration keepAlive,
            Duration reconnectMax)
            implements ConnectionSettings {

        @Override
        public ConnectionSettings withStatusTopic(String topic) {
            return new Mqtt(
                    name,
                    url,
                    clientId,
                    user,
                    password,
                    trust,
                    Optional.of(statusTopic.orElse(topic)),
                    keepAlive,
                    reconnectMax);
        }

        /**
         * For a second session beside that of these settings, which it neither ends nor speaks for:
         * with another client id and no status.
         */
        public Mqtt asGuest(String otherClientId) {
            return new Mqtt(
                    name,
                    url,
                    otherClientId,
                    user,
                    password,
                    trust,
                    Optional.empty(),
                    keepAlive,
                    reconnectMax);
        }
    }
}
