package leat.service;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.LongConsumer;
import leat.alarm.AlarmEvent;
import leat.deliver.Message;
import leat.deliver.Outbox;
import leat.deliver.Owed;
import leat.store.DueMessage;
import leat.store.OwedMessage;
import leat.store.StoreReader;

/**
 * The outbox of one route over a reader of its own; deliveries are handed to the engine, which
 * writes them down with its next commit. Thread-safe.
 */
final class StoreOutbox implements Outbox, AutoCloseable {

    private static final ObjectMapper JSON = new ObjectMapper();

    private final Path file;
    private final LongConsumer delivered;
    private Optional<StoreReader> reader = Optional.empty();
    private boolean closed;

    StoreOutbox(Path file, LongConsumer delivered) {
        this.file = file;
        this.delivered = delivered;
    }

    @Override
    public synchronized List<Owed> due(String route, long afterNumber, int atMost) {
        if (closed) {
            return List.of();
        }
        if (reader.isEmpty()) {
            reader = Optional.of(StoreReader.open(file));
        }
        return reader.get().due(route, afterNumber, atMost).stream()
                .map(StoreOutbox::owed)
                .toList();
    }

    private static Owed owed(DueMessage due) {
        OwedMessage message = due.message();
        JsonNode json = parse(message.json());
        return new Owed(
                due.number(),
                message.route(),
                new Message(
                        message.messageId(),
                        message.alarmId(),
                        message.machine(),
                        message.topic(),
                        AlarmEvent.valueOf(json.path("event").asText().toUpperCase(Locale.ROOT)),
                        message.grade(),
                        message.atMicros(),
                        json.path("subject").asText(),
                        message.text(),
                        message.json()));
    }

    private static JsonNode parse(String json) {
        try {
            return JSON.readTree(json);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(
                    "a message in the outbox is no JSON: " + e.getMessage(), e);
        }
    }

    @Override
    public void delivered(long number) {
        delivered.accept(number);
    }

    @Override
    public synchronized void close() {
        closed = true;
        reader.ifPresent(StoreReader::close);
        reader = Optional.empty();
    }
}
