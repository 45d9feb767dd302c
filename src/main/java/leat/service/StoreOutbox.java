package leat.service;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import leat.deliver.Due;
import leat.deliver.Outbox;
import leat.rule.Grade;
import leat.store.Message;
import leat.store.Owed;
import leat.store.StoreException;
import leat.store.StoreReader;
import leat.work.Trouble;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The outbox of one route over a view of its own, and behind it what the store did not take;
 * deliveries are handed to the engine, which writes them down with its next commit. Thread-safe.
 */
final class StoreOutbox implements Outbox, AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(StoreOutbox.class);
    private static final Duration SAY_AGAIN = Duration.ofMinutes(10);

    private final DeliveryMarks marks;
    private final UnstoredMessages unstored;
    private final StoreView view;
    private final Trouble trouble = new Trouble(SAY_AGAIN, System::nanoTime);
    private boolean closed;

    StoreOutbox(StoreView view, DeliveryMarks marks, UnstoredMessages unstored) {
        this.view = view;
        this.marks = marks;
        this.unstored = unstored;
    }

    /** Memory first: what is stored in between is then seen twice, and counts once. */
    @Override
    public synchronized Due due(String route, long afterNumber, int atMost) {
        List<Owed> inMemory = unstored.of(route, afterNumber);
        return ask(inMemory, atMost, open -> open.due(route, afterNumber, atMost));
    }

    @Override
    public synchronized Due dueInQuietHours(String route, long afterNumber, int atMost) {
        List<Owed> inMemory = unstored.of(route, afterNumber);
        Set<String> critical =
                inMemory.stream()
                        .map(Owed::message)
                        .filter(StoreOutbox::isCritical)
                        .map(Message::alarmId)
                        .filter(alarm -> !alarm.isEmpty())
                        .collect(Collectors.toSet());
        return ask(
                inMemory.stream().filter(each -> passesQuietHours(each, inMemory)).toList(),
                atMost,
                open -> open.dueInQuietHours(route, afterNumber, atMost, critical));
    }

    private static boolean passesQuietHours(Owed owed, List<Owed> all) {
        String alarm = owed.message().alarmId();
        return isCritical(owed.message())
                || !alarm.isEmpty()
                        && all.stream()
                                .filter(each -> each.number() > owed.number())
                                .map(Owed::message)
                                .anyMatch(each -> each.alarmId().equals(alarm) && isCritical(each));
    }

    private static boolean isCritical(Message message) {
        return message.grade() == Grade.CRITICAL;
    }

    private Due ask(List<Owed> inMemory, int atMost, Function<StoreReader, List<Owed>> question) {
        if (closed) {
            return new Due(List.of(), false);
        }
        TreeMap<Long, Owed> due = new TreeMap<>();
        inMemory.forEach(each -> due.put(each.number(), each));
        Optional<List<Owed>> stored = stored(question);
        stored.ifPresent(found -> found.forEach(each -> due.put(each.number(), each)));
        Set<Owed> asStored = Set.copyOf(stored.orElse(List.of()));
        return new Due(
                due.values().stream()
                        .limit(atMost)
                        .map(each -> asStored.contains(each) ? each : unstored.marked(each))
                        .toList(),
                stored.isPresent());
    }

    /** Empty when the store cannot be read now. */
    private Optional<List<Owed>> stored(Function<StoreReader, List<Owed>> question) {
        try {
            List<Owed> found = question.apply(view.reader());
            trouble.over();
            return Optional.of(found);
        } catch (StoreException e) {
            if (trouble.isNews(e.getMessage())) {
                LOG.error("what waits to be delivered cannot be read: {}", e.getMessage());
            }
            return Optional.empty();
        }
    }

    @Override
    public void delivered(long number) {
        marks.delivered(number);
    }

    @Override
    public void attempted(long number) {
        marks.attempted(number);
    }

    @Override
    public void givenUp(List<Owed> owed, String reason) {
        marks.givenUp(owed, reason);
    }

    @Override
    public synchronized void close() {
        closed = true;
        view.close();
    }
}
