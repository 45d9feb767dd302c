package leat.day;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * Everything that any receiver was given. Each looks its message up in the database as it comes,
 * over a connection of its own. Thread-safe.
 */
final class Arrivals implements AutoCloseable {

    /**
     * One message at one receiver.
     *
     * @param place where it came: the route's name, or one place more that the route serves
     * @param atMicros real time, microseconds UTC
     * @param committed whether it stood in the database when it came
     * @param faithful whether it was, byte for byte, what the database holds
     */
    record Arrival(String place, String id, long atMicros, boolean committed, boolean faithful) {}

    private final Path database;
    private final Map<String, Books> books = new ConcurrentHashMap<>();
    private final List<Arrival> arrivals = new CopyOnWriteArrayList<>();

    Arrivals(Path database) {
        this.database = database;
    }

    /**
     * A receiver has got something, just now. To be called before it says so to the sender.
     *
     * @param same whether what came is what the database holds
     */
    void came(String route, String id, Predicate<Books.BookedMessage> same) {
        came(route, route, id, same);
    }

    /** Likewise at one place more of a route. */
    void came(String place, String route, String id, Predicate<Books.BookedMessage> same) {
        long now = RealTime.nowMicros();
        Optional<Books.BookedMessage> row =
                books.computeIfAbsent(route, r -> new Books(database)).row(route, id);
        add(new Arrival(place, id, now, row.isPresent(), row.filter(same).isPresent()));
    }

    /** Likewise from a receiver that has looked for itself. */
    void add(Arrival arrival) {
        arrivals.add(arrival);
    }

    List<Arrival> all() {
        return List.copyOf(arrivals);
    }

    /** By place and id, in the order of coming. */
    static Map<Key, List<Arrival>> byMessage(List<Arrival> arrivals) {
        return arrivals.stream().collect(Collectors.groupingBy(a -> new Key(a.place(), a.id())));
    }

    /** A message on its way to one place. */
    record Key(String place, String id) {}

    @Override
    public void close() {
        books.values().forEach(Books::close);
    }
}
