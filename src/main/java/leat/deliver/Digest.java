package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import leat.alarm.AlarmChange;

/**
 * What a route is told of ADVISORY alarms once a day, in the place of one message after the other.
 * Immutable.
 *
 * @param id of the one message that stands for the others
 * @param route name of the route
 * @param date of the site's calendar on which it falls due
 * @param entries one for each alarm, in the order in which they came, at least one
 * @param before ADVISORY alarms that stand and of which there was nothing new
 */
public record Digest(String id, String route, LocalDate date, List<Entry> entries, long before) {

    /**
     * One alarm.
     *
     * @param alarmId the occurrence
     * @param fate what has become of it
     * @param lines what was not told one by one, in its order, at least one
     */
    record Entry(String alarmId, DigestFate fate, List<DigestLine> lines) {
        Entry {
            requireNonNull(alarmId, "alarmId");
            requireNonNull(fate, "fate");
            lines = List.copyOf(lines);
        }

        String machine() {
            return lines.get(0).machine();
        }

        /** The whole text of the last call, if there was one. */
        Optional<String> call() {
            return lines.stream()
                    .flatMap(line -> line.call().stream())
                    .reduce((earlier, later) -> later);
        }
    }

    public Digest {
        requireNonNull(id, "id");
        requireNonNull(route, "route");
        requireNonNull(date, "date");
        entries = List.copyOf(entries);
        if (entries.isEmpty()) {
            throw new IllegalArgumentException(id + " holds nothing");
        }
    }

    /**
     * @param lines in their order, at least one
     * @param latest the latest change of an alarm by its id; empty when it is back to normal
     */
    public static Digest of(
            String id,
            String route,
            LocalDate date,
            List<DigestLine> lines,
            Function<String, Optional<AlarmChange>> latest,
            long before) {
        Map<String, List<DigestLine>> byAlarm = new LinkedHashMap<>();
        lines.forEach(
                line -> byAlarm.computeIfAbsent(line.alarmId(), a -> new ArrayList<>()).add(line));
        List<Entry> entries =
                byAlarm.entrySet().stream()
                        .map(
                                alarm ->
                                        new Entry(
                                                alarm.getKey(),
                                                DigestFate.of(latest.apply(alarm.getKey())),
                                                alarm.getValue()))
                        .toList();
        return new Digest(id, route, date, entries, before);
    }

    /** The machine that it is about; {@link Message#EVERY_MACHINE} for more than one. */
    String machine() {
        List<String> machines = entries.stream().map(Entry::machine).distinct().toList();
        return machines.size() == 1 ? machines.get(0) : Message.EVERY_MACHINE;
    }

    List<Entry> of(DigestFate fate) {
        return entries.stream().filter(entry -> entry.fate() == fate).toList();
    }

    List<Entry> gone() {
        return entries.stream().filter(entry -> entry.fate().isGone()).toList();
    }

    /** How many ADVISORY alarms stand, those without news with them. */
    long standing() {
        return of(DigestFate.STANDS).size() + before;
    }
}
