package leat.acquire.recording;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.signal.Instruction;
import leat.signal.Instruction.AboutAlarm;

/**
 * What people did to an alarm, as words in the last column: the kind, the alarm, for a shelf its
 * end, who, and the reason where there is one.
 */
final class AlarmCell {

    private static final Pattern PLAIN = Pattern.compile("(\\S*) by (.*)", Pattern.DOTALL);

    private static final Pattern WITH_REASON =
            Pattern.compile("(\\S*)(?: until (\\S+))? by (\\S+): (.*)", Pattern.DOTALL);

    private AlarmCell() {}

    static String write(AboutAlarm instruction) {
        if (instruction instanceof Instruction.Shelve shelve) {
            return "shelve "
                    + Escape.word(shelve.alarmId())
                    + " until "
                    + IsoTime.text(shelve.untilMicros())
                    + " by "
                    + Escape.word(shelve.by())
                    + ": "
                    + Escape.text(shelve.why());
        }
        if (instruction instanceof Instruction.Remove remove) {
            return "remove "
                    + Escape.word(remove.alarmId())
                    + " by "
                    + Escape.word(remove.by())
                    + ": "
                    + Escape.text(remove.why());
        }
        return kind(instruction)
                + " "
                + Escape.word(instruction.alarmId())
                + " by "
                + Escape.text(instruction.by());
    }

    private static String kind(AboutAlarm instruction) {
        if (instruction instanceof Instruction.Acknowledge) {
            return "acknowledge";
        }
        if (instruction instanceof Instruction.Reset) {
            return "reset";
        }
        if (instruction instanceof Instruction.Unshelve) {
            return "unshelve";
        }
        if (instruction instanceof Instruction.Restore) {
            return "restore";
        }
        throw new IllegalArgumentException("no words for " + instruction);
    }

    /** Empty for words that {@link #write} never writes. */
    static Optional<AboutAlarm> read(String kind, String rest, long atMicros) {
        return switch (kind) {
            case "shelve", "remove" -> withReason(kind, rest, atMicros);
            default -> plain(kind, rest, atMicros);
        };
    }

    private static Optional<AboutAlarm> plain(String kind, String rest, long atMicros) {
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
            case "acknowledge" -> Optional.of(new Instruction.Acknowledge(atMicros, by, id));
            case "reset" -> Optional.of(new Instruction.Reset(atMicros, by, id));
            case "unshelve" -> Optional.of(new Instruction.Unshelve(atMicros, by, id));
            case "restore" -> Optional.of(new Instruction.Restore(atMicros, by, id));
            default -> Optional.empty();
        };
    }

    private static Optional<AboutAlarm> withReason(String kind, String rest, long atMicros) {
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
            return Optional.of(new Instruction.Remove(atMicros, by, id, why));
        }
        OptionalLong until = IsoTime.parse(words.group(2));
        return until.isPresent()
                ? Optional.of(new Instruction.Shelve(atMicros, by, id, until.getAsLong(), why))
                : Optional.empty();
    }
}
