package leat.config;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.signal.Channel;

/**
 * Finds what is used twice where that is surely wrong: one number for two channels, one client id
 * for two connections, one topic for two purposes. Two machines may share the transducer of a
 * common supply.
 */
final class SharedUse {

    private final Connections connections;

    SharedUse(Connections connections) {
        this.connections = connections;
    }

    void check(List<Machine> machines, List<Route> routes) {
        List<Use> uses =
                machines.stream()
                        .flatMap(m -> m.wired().stream().map(w -> new Use(m.name(), w)))
                        .toList();
        for (int i = 0; i < uses.size(); i++) {
            for (int j = 0; j < i; j++) {
                compare(uses.get(j), uses.get(i));
            }
        }
        sameClient();
        sameStatusTopic(uses);
        sameRoute(routes);
    }

    private void compare(Use first, Use second) {
        ChannelSettings one = first.wired().settings();
        ChannelSettings two = second.wired().settings();
        if (!one.connection().equals(two.connection())) {
            return;
        }
        if (samePlace(one.point(), two.point())) {
            samePlace(first, second);
        } else if (overlap(one.point(), two.point())) {
            second.wrong(
                    "takes a register that " + first.told() + " takes too",
                    "a 32-bit number takes two registers");
        } else if (qosDiffers(one.point(), two.point())) {
            second.wrong(
                    "asks for another qos on the same topic than " + first.told(), "the same qos");
        }
    }

    private static void samePlace(Use first, Use second) {
        boolean sameRole = first.channel() == second.channel();
        if (first.machine().equals(second.machine()) || !sameRole) {
            second.wrong("reads the same number as " + first.told(), "each channel its own");
        } else if (second.channel() != Channel.INLET) {
            second.wired()
                    .at()
                    .doubtfulKey(
                            "reads the same number as " + first.told(),
                            "right only if the two machines share it");
        }
    }

    private static boolean samePlace(Point one, Point two) {
        if (one instanceof Point.Register a && two instanceof Point.Register b) {
            return a.equals(b);
        }
        return one instanceof Point.Topic a
                && two instanceof Point.Topic b
                && a.topic().equals(b.topic())
                && a.valuePointer().equals(b.valuePointer());
    }

    private static boolean overlap(Point one, Point two) {
        return one instanceof Point.Register a
                && two instanceof Point.Register b
                && a.unitId() == b.unitId()
                && a.table() == b.table()
                && a.address() < b.address() + b.width()
                && b.address() < a.address() + a.width();
    }

    private static boolean qosDiffers(Point one, Point two) {
        return one instanceof Point.Topic a
                && two instanceof Point.Topic b
                && a.topic().equals(b.topic())
                && a.qos() != b.qos();
    }

    /** A broker throws out the elder of two clients with one id, and so on for ever. */
    private void sameClient() {
        Map<String, Connection> byClient = new HashMap<>();
        for (Connection connection : connections.all()) {
            Optional<ConnectionSettings.Mqtt> mqtt = mqtt(connection);
            if (mqtt.isPresent()) {
                String client = mqtt.get().url() + " " + mqtt.get().clientId();
                Connection first = byClient.putIfAbsent(client, connection);
                if (first != null) {
                    connection
                            .at()
                            .below("mqtt", "client_id")
                            .wrong(
                                    Cursor.quote(mqtt.get().clientId())
                                            + " is the client id of "
                                            + first.name()
                                            + " at the same broker",
                                    "each connection its own client_id");
                }
            }
        }
    }

    private static Optional<ConnectionSettings.Mqtt> mqtt(Connection connection) {
        return connection
                .settings()
                .filter(s -> s instanceof ConnectionSettings.Mqtt)
                .map(s -> (ConnectionSettings.Mqtt) s);
    }

    private void sameStatusTopic(List<Use> uses) {
        Map<String, Connection> byTopic = new HashMap<>();
        for (Connection connection : connections.all()) {
            mqtt(connection)
                    .filter(m -> m.statusTopic().isPresent())
                    .ifPresent(m -> statusTopic(connection, m, byTopic, uses));
        }
    }

    private static void statusTopic(
            Connection connection,
            ConnectionSettings.Mqtt mqtt,
            Map<String, Connection> byTopic,
            List<Use> uses) {
        String topic = mqtt.statusTopic().orElseThrow();
        Connection first = byTopic.putIfAbsent(mqtt.url() + " " + topic, connection);
        if (first != null) {
            connection
                    .at()
                    .below("mqtt", "status_topic")
                    .wrong(
                            Cursor.quote(topic)
                                    + " is the status topic of "
                                    + first.name()
                                    + " too",
                            "each connection its own status_topic");
        }
        for (Use use : uses) {
            ChannelSettings channel = use.wired().settings();
            if (channel.connection().equals(connection.name())
                    && channel.point() instanceof Point.Topic read
                    && read.topic().equals(topic)) {
                use.wrong(
                        "reads leat's own status topic " + Cursor.quote(topic),
                        "the topic of the transducer, or another status_topic");
            }
        }
    }

    private static void sameRoute(List<Route> routes) {
        Map<String, Route> byTarget = new HashMap<>();
        for (Route route : routes) {
            if (route.settings() instanceof RouteSettings.Mqtt mqtt) {
                Route first =
                        byTarget.putIfAbsent(mqtt.connection() + " " + mqtt.topicPrefix(), route);
                if (first != null) {
                    route.at()
                            .below("by", "mqtt", "topic_prefix")
                            .wrong(
                                    "the route "
                                            + first.settings().name()
                                            + " sends to the same topics",
                                    "each route its own topic_prefix");
                }
            }
        }
    }

    /**
     * One channel of one machine.
     *
     * @param machine its name
     * @param wired the channel
     */
    private record Use(String machine, Machine.Wired wired) {

        Channel channel() {
            return wired.settings().channel();
        }

        String told() {
            return machine
                    + "'s "
                    + channel().key()
                    + " (line "
                    + wired.at().keySpot().line()
                    + ")";
        }

        void wrong(String what, String allowed) {
            wired.at().wrongKey(wired.at().path(), what, allowed);
        }
    }
}
