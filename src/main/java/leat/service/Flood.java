package leat.service;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import leat.deliver.Folded;
import leat.deliver.Message;
import leat.deliver.Reminders;
import leat.rule.Grade;
import leat.store.FoldedMessage;
import leat.store.OwedMessage;

/**
 * Counts what each route gets of each machine in each ten minutes of the clock, and folds what is
 * too much. ISA-18.2 / IEC 62682 call more than 10 alarms in a 10-minute interval a flood (at
 * second hand); fixed intervals, as they count. Calls about what nobody has acknowledged take only
 * the places that changes have left: what is new is never folded because of what is told again.
 * Confined to the engine thread.
 */
final class Flood {

    private static final long WINDOW_MICROS = 600_000_000;
    private static final long MICROS_PER_SECOND = 1_000_000;
    private static final DateTimeFormatter BEGIN =
            DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'", Locale.ROOT)
                    .withZone(ZoneOffset.UTC);

    private record Stream(String route, String machine, long window) {
        static Stream of(OwedMessage message) {
            return new Stream(
                    message.route(),
                    message.machine(),
                    Math.floorDiv(message.atMicros(), WINDOW_MICROS));
        }
    }

    /**
     * Messages of one stream.
     *
     * @param changes that tell of a change of an alarm
     * @param reminders that tell again what nobody has acknowledged
     */
    private record Count(int changes, int reminders) {
        static final Count NONE = new Count(0, 0);

        Count and(OwedMessage message) {
            return Reminders.isReminder(message.event())
                    ? new Count(changes, reminders + 1)
                    : new Count(changes + 1, reminders);
        }

        /** Whether the message that was counted last is one too many. */
        boolean isMore(OwedMessage last, int atMost) {
            return Reminders.isReminder(last.event())
                    ? changes + reminders > atMost
                    : changes > atMost;
        }
    }

    private final Map<Stream, Count> counts = new HashMap<>();
    private final Map<Stream, Folded> folded = new LinkedHashMap<>();
    private final StandInIds ids;

    /**
     * @param latest the messages of the last ten minutes of an earlier run that were not folded: as
     *     nothing was folded before there were as many as may be, they lead to the same answers
     * @param pending those of them, or older, that are folded and that no message stands for yet
     * @param ids which ids are used up
     */
    Flood(Collection<OwedMessage> latest, Collection<FoldedMessage> pending, StandInIds ids) {
        this.ids = ids;
        latest.stream().filter(message -> !message.alarmId().isEmpty()).forEach(this::count);
        pending.forEach(each -> fold(Stream.of(each.message()), each.message(), each.into()));
    }

    private Count count(OwedMessage message) {
        return counts.merge(
                Stream.of(message), Count.NONE.and(message), (before, one) -> before.and(message));
    }

    /**
     * Counts a message.
     *
     * @return the id of the message that is to stand for it, if it is one too many
     */
    Optional<String> foldsInto(OwedMessage message, int atMost) {
        boolean isMore = count(message).isMore(message, atMost);
        if (!isMore || message.grade() == Grade.CRITICAL) {
            return Optional.empty();
        }
        Stream stream = Stream.of(message);
        Instant begin = Instant.ofEpochSecond(stream.window * (WINDOW_MICROS / MICROS_PER_SECOND));
        String id = ids.free(stream.route, stream.machine + "/more/" + BEGIN.format(begin));
        fold(stream, message, id);
        return Optional.of(id);
    }

    private void fold(Stream stream, OwedMessage message, String id) {
        List<Message> messages = new ArrayList<>();
        Optional.ofNullable(folded.get(stream)).ifPresent(f -> messages.addAll(f.messages()));
        messages.add(StoreOutbox.message(message));
        folded.put(stream, new Folded(id, stream.route, stream.machine, messages));
    }

    /** What was folded in windows that are over; each is handed out once. */
    List<Folded> over(long nowMicros) {
        long window = Math.floorDiv(nowMicros, WINDOW_MICROS);
        List<Folded> over =
                folded.entrySet().stream()
                        .filter(entry -> entry.getKey().window != window)
                        .map(Map.Entry::getValue)
                        .toList();
        over.forEach(each -> ids.use(each.route(), each.id()));
        folded.keySet().removeIf(stream -> stream.window != window);
        counts.keySet().removeIf(stream -> stream.window != window);
        return over;
    }
}
