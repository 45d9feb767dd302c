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
import leat.rule.Grade;
import leat.store.FoldedMessage;
import leat.store.OwedMessage;

/**
 * Counts what each route gets of each machine in each ten minutes of the clock, and folds what is
 * too much. ISA-18.2 / IEC 62682 call more than 10 alarms in a 10-minute interval a flood (at
 * second hand); fixed intervals, as they count. Confined to the engine thread.
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

    private final Map<Stream, Integer> counts = new HashMap<>();
    private final Map<Stream, Folded> folded = new LinkedHashMap<>();

    /**
     * @param latest the messages of the last ten minutes of an earlier run
     * @param pending those of them, or older, that are folded and that no message stands for yet
     */
    Flood(Collection<OwedMessage> latest, Collection<FoldedMessage> pending) {
        latest.stream()
                .filter(Flood::tellsOfChange)
                .forEach(message -> counts.merge(Stream.of(message), 1, Integer::sum));
        pending.forEach(each -> fold(Stream.of(each.message()), each.message(), each.into()));
    }

    /** By its id: reminders and what stands for others are not counted. */
    private static boolean tellsOfChange(OwedMessage message) {
        int alarm = message.alarmId().length();
        return alarm > 0 && message.messageId().lastIndexOf('/') == alarm;
    }

    /**
     * Counts a message.
     *
     * @return the id of the message that is to stand for it, if it is one too many
     */
    Optional<String> foldsInto(OwedMessage message, int atMost) {
        Stream stream = Stream.of(message);
        int count = counts.merge(stream, 1, Integer::sum);
        if (count <= atMost || message.grade() == Grade.CRITICAL) {
            return Optional.empty();
        }
        Instant begin = Instant.ofEpochSecond(stream.window * (WINDOW_MICROS / MICROS_PER_SECOND));
        String id = stream.machine + "/more/" + BEGIN.format(begin);
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
        folded.keySet().removeIf(stream -> stream.window != window);
        counts.keySet().removeIf(stream -> stream.window != window);
        return over;
    }
}
