package leat.acquire.recording;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.AboutAlarm;

/**
 * What people did to an alarm, as words in the last column: the kind, the alarm, for a shelf its
 * end, who, and the reason where there is one.
 */
final class AlarmCell {

    private static final Pattern PLAIN = Pattern.compile("(\\S*) by (.*)", Pattern.DOTALL);

    private static final Pattern WITH_REASON =
            Pattern.compile("(\\S*)(?: until (\\S+))? by (\\S+): (.*)", Pattern.DOTALL);

    private AlarmCell() {}

    static String write(String by, AboutAlarm order) {
        if (order instanceof Order.Shelve shelve) {
            return "shelve "
                    + Escape.word(shelve.alarmId())
                    + " until "
                    + IsoTime.text(shelve.untilMicros())
                    + " by "
                    + Escape.word(by)
                    + ": "
                    + Escape.text(shelve.why());
        }
        if (order instanceof Order.Remove remove) {
            return "remove "
                    + Escape.word(remove.alarmId())
                    + " by "
                    + Escape.word(by)
                    + ": "
                    + Escape.text(remove.why());
        }
        return kind(order) + " " + Escape.word(order.alarmId()) + " by " + Escape.text(by);
    }

    private static String kind(AboutAlarm order) {
        if (order instanceof Order.Acknowledge) {
            return "acknowledge";
        }
        if (order instanceof Order.Reset) {
            return "reset";
        }
        if (order instanceof Order.Unshelve) {
            return "unshelve";
        }
        if (order instanceof Order.Restore) {
            return "restore";
        }
        throw new IllegalArgumentException("no words for " + order);
    }

    /** Empty for words that {@link #write} never writes. */
    static Optional<Instruction> read(String kind, String rest, long atMicros) {
        return switch (kind) {
            case "shelve", "remove" -> withReason(kind, rest, atMicros);
            default -> plain(kind, rest, atMicros);
        };
    }

    private static Optional<Instruction> plain(String kind, String rest, long atMicros) {
        Matcher words = PLAIN.matcher(rest);
        if (!words.matches()) {
            return Optional.empty();
        }
        String id = Escape.undo(words.group(1));
        String by = Escape.undo(words.group(2));
        if (by.isBlank()) {
            return Optional.empty();
        }
        return switch (kind) {
            case "acknowledge" -> Optional.of(said(atMicros, by, new Order.Acknowledge(id)));
            case "reset" -> Optional.of(said(atMicros, by, new Order.Reset(id)));
            case "unshelve" -> Optional.of(said(atMicros, by, new Order.Unshelve(id)));
            case "restore" -> Optional.of(said(atMicros, by, new Order.Restore(id)));
            default -> Optional.empty();
        };
    }

    private static Instruction said(long atMicros, String by, AboutAlarm order) {
        return new Instruction(atMicros, by, order);
    }

    private static Optional<Instruction> withReason(String kind, String rest, long atMicros) {
        Matcher words = WITH_REASON.matcher(rest);
        if (!words.matches()) {
            return Optional.empty();
        }
        String id = Escape.undo(words.group(1));
        String by = Escape.undo(words.group(3));
        String why = Escape.undo(words.group(4));
        boolean isShelf = kind.equals("shelve");
        if (by.isBlank() || why.isBlank() || isShelf != (words.group(2) != null)) {
            return Optional.empty();
        }
        if (!isShelf) {
            return Optional.of(new Instruction(atMicros, by, new Order.Remove(id, why)));
        }
        OptionalLong until = IsoTime.parse(words.group(2));
        return until.isPresent()
                ? Optional.of(
                        new Instruction(atMicros, by, new Order.Shelve(id, until.getAsLong(), why)))
                : Optional.empty();
    }
}
