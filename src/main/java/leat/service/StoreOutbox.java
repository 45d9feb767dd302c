package leat.service;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import leat.deliver.Outbox;
import leat.store.Owed;
import leat.store.StoreReader;

/**
 * The outbox of one route over a reader of its own; deliveries are handed to the engine, which
 * writes them down with its next commit. Thread-safe.
 */
final class StoreOutbox implements Outbox, AutoCloseable {

    private final Path file;
    private final DeliveryMarks marks;
    private Optional<StoreReader> reader = Optional.empty();
    private boolean closed;

    StoreOutbox(Path file, DeliveryMarks marks) {
        this.file = file;
        this.marks = marks;
    }

    @Override
    public synchronized List<Owed> due(String route, long afterNumber, int atMost) {
        return ask(open -> open.due(route, afterNumber, atMost));
    }

    @Override
    public synchronized List<Owed> dueInQuietHours(String route, long afterNumber, int atMost) {
        return ask(open -> open.dueInQuietHours(route, afterNumber, atMost));
    }

    private List<Owed> ask(Function<StoreReader, List<Owed>> question) {
        if (closed) {
            return List.of();
        }
        if (reader.isEmpty()) {
            reader = Optional.of(StoreReader.open(file));
        }
        return question.apply(reader.get());
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
        reader.ifPresent(StoreReader::close);
        reader = Optional.empty();
    }
}
