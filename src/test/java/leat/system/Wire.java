package leat.system;

import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import leat.interop.Mosquitto;

/**
 * What a mosquitto_sub has heard of leat at the broker: each message as the state of an alarm and
 * as an event, in that order. Confined to the test's thread.
 */
final class Wire {

    private static final String PREFIX = "leat/boatyard/";
    private static final String MARK = PREFIX + "mark";
    private static final ObjectMapper JSON = new ObjectMapper();

    private final Mosquitto broker;
    private final Path file;
    private final List<String> events = new ArrayList<>();
    private final Set<String> states = new HashSet<>();
    private long read;
    private int marks;
    private int marksHeard;

    private Wire(Mosquitto broker, Path file) {
        this.broker = broker;
        this.file = file;
    }

    static Wire listen(Mosquitto broker) throws IOException {
        return new Wire(broker, broker.listen(PREFIX + "#").file());
    }

    /** Bytes heard; grows with every message. */
    long size() {
        try {
            return Files.size(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Waits until the subscriber has what the broker had when this was called. */
    void settle() throws IOException, InterruptedException {
        marks++;
        broker.publish(MARK, "{}");
        await().atMost(Duration.ofSeconds(20))
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(2))
                .until(
                        () -> {
                            update();
                            return marksHeard == marks;
                        });
    }

    /** Ids of the events up to the last {@link #settle}, in order, repeats included. */
    List<String> events() {
        return events;
    }

    /** Ids of what was told as a state or as an event. */
    Set<String> told() {
        Set<String> told = new HashSet<>(states);
        told.addAll(events);
        return told;
    }

    /** Ids of what was told as a state and not, or not yet, as an event. */
    Set<String> halfTold() {
        Set<String> half = new HashSet<>(states);
        events.forEach(half::remove);
        return half;
    }

    private void update() throws IOException {
        byte[] more;
        try (RandomAccessFile heard = new RandomAccessFile(file.toFile(), "r")) {
            more = new byte[(int) (heard.length() - read)];
            heard.seek(read);
            heard.readFully(more);
        }
        int end = more.length;
        while (end > 0 && more[end - 1] != '\n') {
            end--;
        }
        read += end;
        new String(more, 0, end, StandardCharsets.UTF_8).lines().forEach(this::take);
    }

    private void take(String line) {
        String topic = line.split(" ", 3)[1];
        if (topic.equals(MARK)) {
            marksHeard++;
        } else if (topic.equals(PREFIX + "event")) {
            events.add(messageId(line));
        } else if (!topic.equals(PREFIX + "status")) {
            states.add(messageId(line));
        }
    }

    /** Of a line that mosquitto_sub wrote. */
    static String messageId(String line) {
        try {
            return JSON.readTree(line.split(" ", 3)[2]).path("id").asText();
        } catch (JsonProcessingException e) {
            throw new AssertionError(line, e);
        }
    }
}
