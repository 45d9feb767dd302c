package leat.acquire.mqtt;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Pattern;
import leat.config.Point;

/**
 * Reads the payloads of one channel: the number itself as text, or JSON with pointers (RFC 6901) to
 * the value and, where the sensor has a clock, the time. Immutable.
 */
public final class PayloadReader {

    /** More than any sensor's message; a longer one is not even parsed. */
    public static final int LONGEST = 64 * 1024;

    private static final int LONGEST_NUMBER = 64;

    /** What {@code Double.parseDouble} takes beyond this (NaN, 1d, hexadecimal) is no reading. */
    private static final Pattern NUMBER =
            Pattern.compile("[+-]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][+-]?\\d+)?");

    private static final ObjectReader JSON =
            JsonMapper.builder()
                    .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
                    .enable(DeserializationFeature.FAIL_ON_READING_DUP_TREE_KEY)
                    .build()
                    .readerFor(JsonNode.class);

    private static final double LATEST_SECONDS = 253_402_300_800.0; // 10000-01-01T00:00:00Z
    private static final Instant LATEST = Instant.ofEpochSecond((long) LATEST_SECONDS);

    private final boolean contact;
    private final Optional<JsonPointer> value;
    private final Optional<JsonPointer> time;
    private final Point.TimeFormat timeFormat;

    /**
     * @param contact true for a channel that reads 0 or 1, which may also be written as a truth
     *     value or as on / off
     * @throws IllegalArgumentException for something that is no JSON pointer, or a time without a
     *     pointer to the value
     */
    public PayloadReader(Point.Topic point, boolean contact) {
        this.contact = contact;
        this.value = point.valuePointer().map(JsonPointer::compile);
        this.time = point.timePointer().map(JsonPointer::compile);
        this.timeFormat = point.timeFormat();
        if (time.isPresent() && value.isEmpty()) {
            throw new IllegalArgumentException(
                    point.topic() + ": a plain number cannot carry a time");
        }
    }

    public Payload read(byte[] payload) throws MalformedPayload {
        if (payload.length > LONGEST) {
            throw new MalformedPayload("long", Integer.toString(payload.length));
        }
        return value.isPresent() ? json(payload, value.get()) : plain(payload);
    }

    private Payload plain(byte[] payload) throws MalformedPayload {
        String text = new String(payload, StandardCharsets.UTF_8).strip();
        if (contact) {
            return new Payload(contact(text), OptionalLong.empty());
        }
        if (text.length() > LONGEST_NUMBER || !NUMBER.matcher(text).matches()) {
            throw new MalformedPayload("plain");
        }
        return new Payload(finite(Double.parseDouble(text)), OptionalLong.empty());
    }

    /** A payload as JSON, as strictly as every reading is taken; empty where it is none. */
    public static Optional<JsonNode> tree(byte[] payload) {
        if (payload.length > LONGEST) {
            return Optional.empty();
        }
        try {
            return Optional.of(JSON.readTree(payload)).filter(n -> !n.isMissingNode());
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private Payload json(byte[] payload, JsonPointer pointer) throws MalformedPayload {
        JsonNode root = tree(payload).orElseThrow(() -> new MalformedPayload("json"));
        JsonNode found = at(root, pointer);
        double raw = contact ? contact(found, pointer) : number(found, pointer);
        return new Payload(raw, time(root));
    }

    private static JsonNode at(JsonNode root, JsonPointer pointer) throws MalformedPayload {
        JsonNode found = root.at(pointer);
        if (found.isMissingNode()) {
            throw new MalformedPayload("nothing", pointer.toString());
        }
        return found;
    }

    private static double number(JsonNode node, JsonPointer pointer) throws MalformedPayload {
        if (!node.isNumber()) {
            throw new MalformedPayload("no-number", pointer.toString());
        }
        return finite(node.doubleValue());
    }

    private static double contact(JsonNode node, JsonPointer pointer) throws MalformedPayload {
        if (node.isBoolean()) {
            return node.booleanValue() ? 1 : 0;
        }
        if (!node.isNumber() && !node.isTextual()) {
            throw new MalformedPayload("no-word", pointer.toString());
        }
        return contact(node.asText());
    }

    private static double contact(String text) throws MalformedPayload {
        return switch (text.toLowerCase(Locale.ROOT)) {
            case "1", "1.0", "true", "on", "\"on\"" -> 1;
            case "0", "0.0", "false", "off", "\"off\"" -> 0;
            default -> throw new MalformedPayload("contact");
        };
    }

    private OptionalLong time(JsonNode root) throws MalformedPayload {
        if (time.isEmpty()) {
            return OptionalLong.empty();
        }
        JsonNode node = at(root, time.get());
        return OptionalLong.of(
                switch (timeFormat) {
                    case ISO -> isoMicros(node);
                    case EPOCH_S -> epochMicros(node, 1e6);
                    case EPOCH_MS -> epochMicros(node, 1e3);
                });
    }

    private static long isoMicros(JsonNode node) throws MalformedPayload {
        if (!node.isTextual()) {
            throw new MalformedPayload("time-text");
        }
        try {
            Instant at = OffsetDateTime.parse(node.textValue()).toInstant();
            if (at.isAfter(Instant.EPOCH) && at.isBefore(LATEST)) {
                // the library's own difference in microseconds overflows in 2262
                return at.getEpochSecond() * 1_000_000 + at.getNano() / 1000;
            }
            throw new MalformedPayload("time-range");
        } catch (DateTimeException e) {
            throw new MalformedPayload("time-iso");
        }
    }

    private static long epochMicros(JsonNode node, double microsPerUnit) throws MalformedPayload {
        if (!node.isNumber()) {
            throw new MalformedPayload("time-number");
        }
        double micros = node.doubleValue() * microsPerUnit;
        if (!(micros > 0 && micros < LATEST_SECONDS * 1e6)) {
            throw new MalformedPayload("time-range");
        }
        return Math.round(micros);
    }

    private static double finite(double number) throws MalformedPayload {
        if (!Double.isFinite(number)) {
            throw new MalformedPayload("large");
        }
        return number;
    }
}
