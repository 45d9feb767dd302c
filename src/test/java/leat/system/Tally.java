package leat.system;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.function.ToLongFunction;

/** Counts the kills by where they fell. */
final class Tally {

    private final List<Kill> kills = new ArrayList<>();

    void add(Kill kill) {
        kills.add(kill);
    }

    List<Kill> kills() {
        return kills;
    }

    /** Kills with a message on its way. */
    long inFlight() {
        return count(Kill::isInFlight);
    }

    /** Kills in one stretch. */
    long in(Stretch stretch) {
        return count(kill -> kill.stretch() == stretch);
    }

    private long count(Predicate<Kill> what) {
        return kills.stream().filter(what).count();
    }

    private long sum(ToLongFunction<Kill> what) {
        return kills.stream().mapToLong(what).sum();
    }

    /** A table for people. */
    String table() {
        StringBuilder table = new StringBuilder();
        for (Stretch stretch : Stretch.values()) {
            line(table, in(stretch), stretch.words());
        }
        line(table, inFlight(), "of all with messages due, past the start");
        line(table, count(k -> k.split() > 0), "with one receiver told and another not");
        line(table, count(Kill::deskAway), "with the receiver of webhooks away");
        line(table, count(k -> k.half() > 0), "between the state and the event at the broker");
        line(table, sum(Kill::untold), "messages due and not heard, of all kills");
        line(table, sum(Kill::unmarked), "messages due and heard, of all kills");
        return table.toString();
    }

    private static void line(StringBuilder table, long count, String what) {
        table.append(String.format(Locale.ROOT, "kill -9: %5d %s%n", count, what));
    }

    /** A line for each kill. */
    void write(Path csv) throws IOException {
        List<String> lines = new ArrayList<>();
        lines.add(Kill.COLUMNS);
        kills.forEach(kill -> lines.add(kill.line()));
        Files.write(csv, lines);
    }
}
