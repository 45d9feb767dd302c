package leat.config;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The connections of a file, and who refers to them. Thread-confined. */
final class Connections {

    static final Named SHAPE = new Named("connection", ConnectionReader.BLOCK);

    private static final String STATUS = "/status";

    private final Map<String, Connection> byName = new LinkedHashMap<>();
    private final Set<String> used = new HashSet<>();

    static Connections read(Optional<Cursor> at, ConnectionReader reader) {
        Connections connections = new Connections();
        Map<String, Cursor> entries = at.map(SHAPE::read).orElse(Map.of());
        entries.forEach((name, entry) -> connections.byName.put(name, reader.read(name, entry)));
        return connections;
    }

    /** Finds what a setting refers to; reports a name that is not there. */
    Optional<Connection> refer(Cursor at, String name) {
        Optional<Connection> connection = Optional.ofNullable(byName.get(name));
        if (connection.isEmpty()) {
            String known =
                    byName.isEmpty()
                            ? "there are none"
                            : "connections: "
                                    + String.join(", ", byName.keySet())
                                    + "."
                                    + Spelling.didYouMean(name, byName.keySet());
            at.wrong("there is no connection " + Cursor.quote(name), known);
        }
        used.add(name);
        return connection;
    }

    /**
     * A connection that a route uses says whether leat is there: where the file names no topic for
     * that, below the prefix of the first such route.
     */
    void giveStatusTopics(List<Route> routes) {
        for (Route route : routes) {
            if (route.settings() instanceof RouteSettings.Mqtt mqtt) {
                byName.computeIfPresent(
                        mqtt.connection(),
                        (name, connection) ->
                                connection.withStatusTopic(mqtt.topicPrefix() + STATUS));
            }
        }
    }

    void warnOfUnused() {
        for (Connection connection : byName.values()) {
            if (!used.contains(connection.name())) {
                connection.at().doubtfulKey("no channel and no route uses this connection", "");
            }
        }
    }

    Optional<ConnectionSettings> settings(String name) {
        return Optional.ofNullable(byName.get(name)).flatMap(Connection::settings);
    }

    List<Connection> all() {
        return List.copyOf(byName.values());
    }

    List<ConnectionSettings> settings() {
        return byName.values().stream().flatMap(c -> c.settings().stream()).toList();
    }
}
