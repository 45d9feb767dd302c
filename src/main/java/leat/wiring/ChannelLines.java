package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.config.Point;
import leat.signal.Channel;

/**
 * The lines of {@code site.yaml} for a channel that was guessed, with what it rests on.
 *
 * @param channel its role
 * @param connection name of the connection that delivers it
 * @param span of the transducer; needed for a loop current
 */
public record ChannelLines(Channel channel, String connection, Optional<Span> span) {

    private static final String INDENT = " ".repeat(6);
    private static final String DEEPER = INDENT + "  ";

    public ChannelLines {
        requireNonNull(channel, "channel");
        requireNonNull(connection, "connection");
        requireNonNull(span, "span");
    }

    /**
     * As they stand below {@code channels} of a machine.
     *
     * @param remark what the guess rests on; one line, harmless
     * @throws IllegalArgumentException for a loop current where the span is missing
     */
    public List<String> of(Guess guess, String remark) {
        List<String> lines = new ArrayList<>();
        lines.add(INDENT + channel.key() + ":   # " + remark);
        lines.add(DEEPER + "from: " + connection);
        lines.add(DEEPER + place(guess.point()));
        guess.form().lines(span).forEach(line -> lines.add(DEEPER + line));
        return lines;
    }

    private static String place(Point point) {
        return point instanceof Point.Register register
                ? register(register)
                : topic((Point.Topic) point);
    }

    private static String register(Point.Register register) {
        String line =
                "register: { unit_id: "
                        + register.unitId()
                        + ", table: "
                        + word(register.table())
                        + ", address: "
                        + register.address()
                        + ", type: "
                        + word(register.type());
        return register.width() == 1
                ? line + " }"
                : line + ", word_order: " + register.order() + " }";
    }

    private static String topic(Point.Topic topic) {
        StringBuilder line = new StringBuilder("topic: { name: ").append(quoted(topic.topic()));
        topic.valuePointer().ifPresent(value -> line.append(", value: ").append(quoted(value)));
        topic.timePointer()
                .ifPresent(
                        time ->
                                line.append(", time: ")
                                        .append(quoted(time))
                                        .append(", time_format: ")
                                        .append(word(topic.timeFormat())));
        if (topic.silentAfter().compareTo(TopicGuesses.SILENT_AFTER) > 0) {
            line.append(", silent_after: ").append(topic.silentAfter().toSeconds()).append(" s");
        }
        return line.append(" }").toString();
    }

    private static String quoted(String text) {
        return "'" + text.replace("'", "''") + "'";
    }

    private static String word(Enum<?> choice) {
        return choice.name().toLowerCase(Locale.ROOT);
    }
}
