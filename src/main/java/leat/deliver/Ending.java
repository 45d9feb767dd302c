package leat.deliver;

import java.util.OptionalLong;
import leat.rule.Rule;
import leat.words.Lines;

/**
 * How a message ends: the caution, once, and by what the message is known. Immutable.
 *
 * @param voice whose words
 */
record Ending(Voice voice) {

    /** A call: the caution is whole where somebody is sent to the line. */
    String call(Lines lines, Rule rule, OptionalLong number, String id) {
        return end(lines, sendsHandsToTheLine(rule), number, id);
    }

    /** Nobody has to go anywhere for it. */
    String news(Lines lines, OptionalLong number, String id) {
        return end(lines, false, number, id);
    }

    private String end(Lines lines, boolean whole, OptionalLong number, String id) {
        String caution = whole ? voice.findings().caution() : voice.findings().briefCaution();
        lines.add(voice.say("caution", caution));
        lines.add(
                number.isPresent()
                        ? voice.say("message.of", number(number), id)
                        : voice.say("message", id));
        return lines.text();
    }

    /** The command by which somebody says that they look after it. */
    static String ack(OptionalLong number) {
        return "leat ack " + number(number);
    }

    /** As it is typed: without separators. */
    static String number(OptionalLong number) {
        return Long.toString(number.getAsLong());
    }

    /** What is read from far away is looked for at the network, not at the line. */
    private static boolean sendsHandsToTheLine(Rule rule) {
        return switch (rule) {
            case RISE,
                    LEVEL_LOW,
                    LEVEL_HIGH,
                    RATIO,
                    REST,
                    INLET,
                    FILTER_LOSS,
                    BASELINE,
                    SIGNAL_BAD,
                    SIGNAL_STUCK ->
                    true;
            case SIGNAL_MISSING, SIGNAL_CLOCK, SIGNAL_SWAPPED -> false;
        };
    }
}
