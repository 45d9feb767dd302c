package leat.day;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import leat.day.Arrivals.Arrival;
import leat.day.Arrivals.Key;
import leat.day.Books.BookedMessage;
import leat.day.Commits.Commit;

/** What became of every message of a day: what was owed, when, what came, how late. Immutable. */
final class Result {

    private final List<BookedMessage> rows;
    private final Map<Key, Commit> commits;
    private final List<Bout> bouts;
    private final List<Arrival> all;
    private final Map<Key, List<Arrival>> arrivals;

    Result(
            List<BookedMessage> rows,
            Map<Key, Commit> commits,
            List<Bout> bouts,
            List<Arrival> arrivals) {
        this.rows = List.copyOf(rows);
        this.commits = Map.copyOf(commits);
        this.bouts = List.copyOf(bouts);
        this.all = List.copyOf(arrivals);
        this.arrivals = Arrivals.byMessage(arrivals);
    }

    List<Bout> bouts() {
        return bouts;
    }

    private static Key key(BookedMessage row) {
        return new Key(row.route(), row.id());
    }

    private List<Arrival> came(BookedMessage row) {
        return arrivals.getOrDefault(key(row), List.of());
    }

    long owed(String route) {
        return rows.stream().filter(row -> row.route().equals(route)).count();
    }

    /** Neither given up nor both delivered, by the database, and received. */
    List<String> lost() {
        return rows.stream()
                .filter(row -> row.foldedInto().isEmpty() && !row.isGivenUp())
                .filter(row -> !row.isDelivered() || came(row).isEmpty())
                .map(row -> row.route() + " " + row.id() + ", delivered " + row.isDelivered())
                .toList();
    }

    /** Delivered on a route, but not at that place too. */
    List<String> missingAt(String place, String route) {
        return rows.stream()
                .filter(row -> row.route().equals(route) && row.isDelivered())
                .filter(row -> !arrivals.containsKey(new Key(place, row.id())))
                .map(BookedMessage::id)
                .toList();
    }

    List<BookedMessage> givenUp() {
        return rows.stream().filter(BookedMessage::isGivenUp).toList();
    }

    /** Given up without a notice that has arrived on another route. */
    List<String> givenUpInSilence() {
        List<BookedMessage> notices =
                rows.stream()
                        .filter(row -> row.kind().equals("notice") && !came(row).isEmpty())
                        .toList();
        return givenUp().stream()
                .filter(
                        lost ->
                                notices.stream()
                                        .filter(notice -> !notice.route().equals(lost.route()))
                                        .noneMatch(n -> n.json().contains(quoted(lost.id()))))
                .map(row -> row.route() + " " + row.id() + ": " + row.because())
                .toList();
    }

    private static String quoted(String id) {
        return "\"" + id + "\"";
    }

    /** What a receiver was given before anybody could read it in the database. */
    List<Arrival> beforeTheirCommit() {
        return all.stream().filter(arrival -> !arrival.committed()).toList();
    }

    /** What is not, to the last byte, what the database holds under its id. */
    List<Arrival> notWhatWasCommitted() {
        return all.stream().filter(a -> a.committed() && !a.faithful()).toList();
    }

    /** What came at a route's places while a trouble of it was in force. */
    List<Arrival> cameInSpiteOf(Bout bout) {
        return all.stream()
                .filter(arrival -> arrival.place().startsWith(bout.route()))
                .filter(arrival -> bout.isInForce(arrival.atMicros()))
                .toList();
    }

    /** What was owed once a trouble had set in and counted as delivered before that was over. */
    List<String> countedInSpiteOf(Bout bout) {
        return of(bout.route(), bout.hour()::equals).stream()
                .filter(row -> commits.get(key(row)).notBeforeMicros() >= bout.begunMicros())
                .filter(BookedMessage::isDelivered)
                .filter(row -> row.deliveredMicros() < bout.endedEventMicros())
                .map(BookedMessage::id)
                .toList();
    }

    /** What came again at a route's places, at such moments. */
    private long repeats(String route, Predicate<Arrival> when) {
        return arrivals.entrySet().stream()
                .filter(each -> each.getKey().place().startsWith(route))
                .flatMap(each -> each.getValue().stream().skip(1))
                .filter(when)
                .count();
    }

    long repeats(String route) {
        return repeats(route, arrival -> true);
    }

    /** Of the messages that were committed in such hours. */
    private List<BookedMessage> of(String route, Predicate<Hour> hours) {
        return rows.stream()
                .filter(row -> row.route().equals(route))
                .filter(row -> commits.containsKey(key(row)))
                .filter(row -> hours.test(commits.get(key(row)).hour()))
                .toList();
    }

    /** Real time of the first coming; empty when it never came. */
    private Optional<Long> firstMicros(BookedMessage row) {
        return came(row).stream().map(Arrival::atMicros).min(Comparator.naturalOrder());
    }

    private double delaySeconds(BookedMessage row, long firstMicros) {
        return Math.max(0, (firstMicros - commits.get(key(row)).notBeforeMicros()) / 1e6);
    }

    /** Real seconds from the commit to the first coming of what a route was owed in a trouble. */
    Delays delays(Bout bout) {
        return Delays.of(
                of(bout.route(), bout.hour()::equals).stream()
                        .flatMap(row -> firstMicros(row).map(f -> delaySeconds(row, f)).stream()));
    }

    /**
     * Likewise of what a well route was owed in such hours. What was under way when its own trouble
     * began is left out.
     */
    Delays delaysWhileWell(String route, Predicate<Hour> hours) {
        return Delays.of(
                of(route, hours).stream()
                        .filter(row -> !meetsOwnTrouble(row))
                        .flatMap(row -> firstMicros(row).map(f -> delaySeconds(row, f)).stream()));
    }

    private boolean meetsOwnTrouble(BookedMessage row) {
        long from = commits.get(key(row)).notBeforeMicros();
        long until = firstMicros(row).orElse(Long.MAX_VALUE);
        return bouts.stream()
                .filter(bout -> bout.route().equals(row.route()))
                .anyMatch(bout -> from <= bout.untilMicros() && until >= bout.fromMicros());
    }

    /** One line of the table. */
    String line(Bout bout) {
        List<BookedMessage> owed = of(bout.route(), bout.hour()::equals);
        double worstMinutes =
                owed.stream()
                                .filter(BookedMessage::isDelivered)
                                .mapToLong(row -> row.deliveredMicros() - row.atMicros())
                                .max()
                                .orElse(0)
                        / 6e7;
        return String.format(
                Locale.ROOT,
                "%-7s %-17s %4d %9d %8d %7d %7d %12.2f s %8.1f min",
                bout.route(),
                bout.trouble(),
                owed.size(),
                owed.stream().filter(row -> !came(row).isEmpty()).count(),
                owed.stream().filter(BookedMessage::isGivenUp).count(),
                bout.triesInVain(),
                repeats(bout.route(), arrival -> bout.spans(arrival.atMicros())),
                delays(bout).worst(),
                worstMinutes);
    }

    static String head() {
        return "part    trouble           owed delivered given up in vain repeats"
                + "  worst delay, real, of the day";
    }
}
