package leat.wiring;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.acquire.mqtt.MalformedPayload;
import leat.acquire.mqtt.PayloadReader;
import leat.config.Point;
import leat.config.Point.TimeFormat;
import leat.mqtt.Heard;
import leat.signal.PlainText;
import leat.signal.PressureUnit;
import leat.words.Saying;

/**
 * Reads the payloads of topics of which nothing is known as leat's own reader would: each number in
 * them, and each time that is about now. Immutable.
 *
 * @param doubts what is asked of each reading
 */
public record TopicGuesses(Doubts doubts) {

    /** The default of a channel. */
    static final Duration SILENT_AFTER = Duration.ofSeconds(5);

    /** A sensor's clock that is further off helps nobody. */
    private static final long CLOCK_OFF_MILLIS = 10_000;

    private static final Duration LONGEST_SILENCE = Duration.ofHours(1);

    private static final int LONGEST_NAME = 300;
    private static final int NAMED_OTHERWISE = 4;
    private static final int UNNAMED = 1;

    public TopicGuesses {
        requireNonNull(doubts, "doubts");
    }

    /** The likeliest first; what cannot be a pressure is left out. */
    public List<Guess> of(Heard heard) {
        List<Guess> guesses = new ArrayList<>();
        for (Heard.Topic topic : heard.topics()) {
            if (isWritable(topic.name()) && !topic.messages().isEmpty()) {
                add(topic, guesses);
            }
        }
        return guesses.stream()
                .filter(guess -> guess.sense().kind() != Sense.Kind.NO_PRESSURE)
                .sorted(Guess.LIKELIEST_FIRST)
                .toList();
    }

    /** What could do harm where it is shown, or is no topic of a channel, is written nowhere. */
    private static boolean isWritable(String text) {
        return !text.isEmpty()
                && PlainText.harmless(text, LONGEST_NAME).equals(text)
                && !text.endsWith("/")
                && !text.contains("\ufffd");
    }

    private void add(Heard.Topic topic, List<Guess> guesses) {
        Heard.Message last = topic.messages().get(topic.messages().size() - 1);
        if (!last.isWhole()) {
            return;
        }
        Optional<JsonNode> tree = PayloadReader.tree(last.payload());
        Optional<JsonNode> json = tree.filter(JsonNode::isContainerNode);
        if (json.isEmpty()) {
            add(topic, plain(topic, Optional.empty()), topic.name(), guesses);
            return;
        }
        Map<JsonPointer, JsonNode> leaves = JsonLeaves.of(json.get());
        leaves.forEach(
                (pointer, leaf) -> {
                    if (leaf.isNumber() && isWritable(pointer.toString())) {
                        Point.Topic point = plain(topic, Optional.of(pointer.toString()));
                        String hint = pointer + " " + unitBeside(json.get(), pointer);
                        add(topic, timed(topic, point, last, leaves), hint, guesses);
                    }
                });
    }

    private static Point.Topic plain(Heard.Topic topic, Optional<String> value) {
        return new Point.Topic(
                topic.name(), 1, value, Optional.empty(), TimeFormat.ISO, silence(topic));
    }

    /** Three times the pause between two messages, where that is longer than the default. */
    private static Duration silence(Heard.Topic topic) {
        List<Heard.Message> fresh =
                topic.messages().stream().filter(message -> !message.retained()).toList();
        if (fresh.size() < 2) {
            return SILENT_AFTER;
        }
        long all = fresh.get(fresh.size() - 1).atMillis() - fresh.get(0).atMillis();
        Duration needed = Duration.ofSeconds(3 * all / (fresh.size() - 1) / 1000 + 1);
        Duration bounded = needed.compareTo(LONGEST_SILENCE) > 0 ? LONGEST_SILENCE : needed;
        return bounded.compareTo(SILENT_AFTER) > 0 ? bounded : SILENT_AFTER;
    }

    /** With the first time in the payload that is about when it came. */
    private static Point.Topic timed(
            Heard.Topic topic,
            Point.Topic point,
            Heard.Message last,
            Map<JsonPointer, JsonNode> leaves) {
        for (JsonPointer pointer : leaves.keySet()) {
            boolean isOther = !Optional.of(pointer.toString()).equals(point.valuePointer());
            for (TimeFormat format : TimeFormat.values()) {
                Point.Topic tried =
                        new Point.Topic(
                                topic.name(),
                                1,
                                point.valuePointer(),
                                Optional.of(pointer.toString()),
                                format,
                                point.silentAfter());
                if (isOther && isWritable(pointer.toString()) && isAboutNow(tried, last)) {
                    return tried;
                }
            }
        }
        return point;
    }

    private static boolean isAboutNow(Point.Topic point, Heard.Message message) {
        try {
            OptionalLong micros =
                    new PayloadReader(point, false).read(message.payload()).atMicros();
            return !message.retained()
                    && Math.abs(micros.orElseThrow() / 1000 - message.atMillis())
                            < CLOCK_OFF_MILLIS;
        } catch (MalformedPayload e) {
            return false;
        }
    }

    private void add(Heard.Topic topic, Point.Topic point, String hint, List<Guess> guesses) {
        List<Double> numbers = numbers(topic, point);
        if (numbers.isEmpty()) {
            return;
        }
        boolean whole = numbers.stream().allMatch(number -> number == Math.rint(number));
        Optional<PressureUnit> named = unitIn(hint);
        List<Form> forms = new ArrayList<>(Forms.FRACTIONAL);
        if (whole) {
            Forms.WHOLE_32.stream().filter(form -> !forms.contains(form)).forEach(forms::add);
        }
        for (Form form : forms) {
            Sense sense = doubts.of(form, numbers);
            if (topic.isRetainedAlone() && sense.isLikely()) {
                sense =
                        new Sense(
                                Sense.Kind.NOTHING_YET,
                                sense.psi(),
                                Saying.of("sense.retained"),
                                sense.fromGauge());
            }
            int doubt = form.doubt(doubts.span()) + doubtByName(form, named);
            guesses.add(new Guess(point, form, numbers, sense, doubt));
        }
    }

    private static int doubtByName(Form form, Optional<PressureUnit> named) {
        if (named.isEmpty()) {
            return UNNAMED;
        }
        boolean isNamed =
                form instanceof Form.Direct direct
                        && direct.unit() == named.get()
                        && direct.decimals() == 0;
        return isNamed ? -NAMED_OTHERWISE : NAMED_OTHERWISE;
    }

    /**
     * What leat's own reader makes of the messages; a retained one only where nothing else came.
     */
    private static List<Double> numbers(Heard.Topic topic, Point.Topic point) {
        PayloadReader reader = new PayloadReader(point, false);
        List<Double> numbers = new ArrayList<>();
        for (Heard.Message message : topic.messages()) {
            if (message.isWhole() && (topic.isRetainedAlone() || !message.retained())) {
                try {
                    numbers.add(reader.read(message.payload()).raw());
                } catch (MalformedPayload e) {
                    return List.of();
                }
            }
        }
        return numbers;
    }

    /** The word beside a number that may be its unit, as in {"value": 4.3, "unit": "bar"}. */
    private static String unitBeside(JsonNode root, JsonPointer pointer) {
        JsonNode parent = root.at(pointer.head());
        JsonNode unit = parent.isObject() ? parent.path("unit") : parent;
        return unit.isTextual() ? unit.textValue() : "";
    }

    private static Optional<PressureUnit> unitIn(String hint) {
        String words = hint.toLowerCase(Locale.ROOT);
        if (words.contains("mbar")) {
            return Optional.empty();
        }
        for (PressureUnit unit : PressureUnit.values()) {
            String symbol = unit.symbol().toLowerCase(Locale.ROOT);
            if (words.matches("(?s).*(^|[^a-z])" + symbol + "([^a-z].*|$)")) {
                return Optional.of(unit);
            }
        }
        return Optional.empty();
    }
}
