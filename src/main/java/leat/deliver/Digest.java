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
import leat.rule.Grade;
import leat.store.Message;

/**
 * What a route is told of ADVISORY alarms once a day, in the place of one message after the other.
 * Immutable.
 *
 * @param date of the site's calendar on which it falls due
 * @param entries one for each alarm, in the order in which they came, at least one
 * @param before ADVISORY alarms that stand and of which there was nothing new
 */
record Digest(LocalDate date, List<Entry> entries, long before) implements About {

    /**
     * One alarm.
     *
     * @param fate what has become of it
     * @param changes what was not told one by one, in its order, at least one
     */
    record Entry(DigestFate fate, List<Changed> changes) {
        Entry {
            requireNonNull(fate, "fate");
            changes = List.copyOf(changes);
        }

        String alarmId() {
            return changes.get(0).alarmId();
        }

        String machine() {
            return changes.get(0).machine();
        }

        /** The last call, if there was one. */
        Optional<Changed> call() {
            return changes.stream()
                    .filter(changed -> changed.kind() == Message.Purpose.CALL)
                    .reduce((earlier, later) -> later);
        }
    }

    Digest {
        requireNonNull(date, "date");
        entries = List.copyOf(entries);
    }

    /**
     * @param changes in their order, at least one
     * @param latest the latest change of an alarm by its id; empty when it is back to normal
     */
    static Digest of(
            LocalDate date,
            List<Changed> changes,
            Function<String, Optional<AlarmChange>> latest,
            long before) {
        Map<String, List<Changed>> byAlarm = new LinkedHashMap<>();
        changes.forEach(
                changed ->
                        byAlarm.computeIfAbsent(changed.alarmId(), a -> new ArrayList<>())
                                .add(changed));
        List<Entry> entries = new ArrayList<>();
        byAlarm.forEach(
                (alarm, its) -> entries.add(new Entry(DigestFate.of(latest.apply(alarm)), its)));
        return new Digest(date, entries, before);
    }

    @Override
    public String machine() {
        List<String> machines = entries.stream().map(Entry::machine).distinct().toList();
        return machines.size() == 1 ? machines.get(0) : Message.EVERY_MACHINE;
    }

    /**
     * Nobody has to go anywhere for it, but the other routes are told when it cannot be delivered.
     */
    @Override
    public Message.Purpose kind() {
        return Message.Purpose.NEWS;
    }

    @Override
    public String event() {
        return "digest";
    }

    @Override
    public Grade grade() {
        return Grade.ADVISORY;
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

    @Override
    public Message in(Wording wording, Notification notification) {
        return wording.digest(notification, this);
    }
}
