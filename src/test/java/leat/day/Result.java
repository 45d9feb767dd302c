package leat.day;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import leat.day.Arrivals.Arrival;
import leat.day.Arrivals.Key;
import leat.day.Books.Row;
import leat.day.Commits.Commit;

/**
 * What became of every message of a day: what was owed, when, what came, and how late. Immutable.
 */
final class Result {

    private final List<Row> rows;
    private final Map<Key, Commit> commits;
    private final Map<Key, List<Arrival>> arrivals;
    private final List<Arrival> all;

    Result(List<Row> rows, Map<Key, Commit> commits, List<Arrival> arrivals) {
        this.rows = List.copyOf(rows);
        this.commits = Map.copyOf(commits);
        this.all = List.copyOf(arrivals);
        this.arrivals = Arrivals.byMessage(arrivals);
    }

    private static Key key(Row row) {
        return new Key(row.route(), row.id());
    }

    List<Row> rows() {
        return rows;
    }

    private List<Arrival> came(Row row) {
        return arrivals.getOrDefault(key(row), List.of());
    }

    /** Neither delivered, by the database and by the receiver, nor given up. */
    List<String> lost() {
        return rows.stream()
                .filter(row -> row.foldedInto().isEmpty() && !row.isGivenUp())
                .filter(row -> !row.delivered() || came(row).isEmpty())
                .map(row -> row.route() + " " + row.id() + ", delivered: " + row.delivered())
                .toList();
    }

    /** Given up without a notice that another route has delivered. */
    List<String> givenUpInSilence() {
        return rows.stream()
                .filter(Row::isGivenUp)
                .filter(
                        lost ->
                                rows.stream()
                                        .filter(row -> row.kind().equals("notice"))
                                        .filter(row -> !row.route().equals(lost.route()))
                                        .filter(row -> !came(row).isEmpty())
                                        .noneMatch(row -> row.json().contains(quoted(lost.id()))))
                .map(row -> row.route() + " " + row.id() + ": " + row.because())
                .toList();
    }

    private static String quoted(String id) {
        return "\"" + id + "\"";
    }

    List<Row> givenUp() {
        return rows.stream().filter(Row::isGivenUp).toList();
    }

    /** What a receiver was given before anybody could read it in the database. */
    List<Arrival> beforeTheirCommit() {
        return all.stream().filter(arrival -> !arrival.committed()).toList();
    }

    /** What is not, to the last byte, what the database holds under its id. */
    List<Arrival> notWhatWasCommitted() {
        return all.stream().filter(a -> a.committed() && !a.faithful()).toList();
    }

    long repeats(String route) {
        return arrivals.entrySet().stream()
                .filter(each -> each.getKey().route().equals(route))
                .mapToLong(each -> each.getValue().size() - 1)
                .sum();
    }

    /** Of the messages that were committed in such hours. */
    private List<Row> of(String route, Predicate<Hour> hours) {
        return rows.stream()
                .filter(row -> row.route().equals(route))
                .filter(row -> commits.containsKey(key(row)))
                .filter(row -> hours.test(commits.get(key(row)).hour()))
                .toList();
    }

    /** From the commit to the first coming; empty when it never came. */
    private Optional<Double> delaySeconds(Row row) {
        long committed = commits.get(key(row)).notBeforeMicros();
        return came(row).stream()
                .map(Arrival::atMicros)
                .min(Comparator.naturalOrder())
                .map(at -> Math.max(0, (at - committed) / 1e6));
    }

    /** Real seconds from the commit to the first coming of what a route was owed in such hours. */
    Delays delays(String route, Predicate<Hour> hours) {
        return Delays.of(
                of(route, hours).stream().map(this::delaySeconds).flatMap(Optional::stream));
    }

    /** One line for a trouble of a route. */
    String line(String route, Trouble trouble) {
        List<Row> owed = of(route, hour -> hour.equals(Hour.of(route, trouble)));
        List<Row> arrived = owed.stream().filter(row -> !came(row).isEmpty()).toList();
        return String.format(
                Locale.ROOT,
                "%-7s %-17s owed %3d, delivered %3d, given up %2d, tries in vain %3d, repeats %2d,"
                        + " worst delay %5.2f s",
                route,
                trouble,
                owed.size(),
                arrived.size(),
                owed.stream().filter(Row::isGivenUp).count(),
                owed.stream().mapToLong(row -> row.attempts() - (row.delivered() ? 1 : 0)).sum(),
                arrived.stream().mapToLong(row -> came(row).size() - 1).sum(),
                delays(route, hour -> hour.equals(Hour.of(route, trouble))).worst());
    }
}
