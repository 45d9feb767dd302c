package leat.store;

import leat.signal.Instruction;
import leat.signal.Instruction.Acknowledge;
import leat.signal.Instruction.Entry;
import leat.signal.Instruction.Journal;
import leat.signal.Instruction.Remove;
import leat.signal.Instruction.Reset;
import leat.signal.Instruction.Restore;
import leat.signal.Instruction.Shelve;
import leat.signal.Instruction.Unshelve;

/**
 * An instruction taken apart into columns.
 *
 * @param kind what was asked
 * @param by who asked
 * @param detail id of the alarm, or text of the entry; for what has a reason {@link AlarmAndWhy}
 */
record InstructionWords(Kind kind, String by, String detail) {

    enum Kind {
        ACKNOWLEDGE(InputTable.ACKNOWLEDGE),
        SERVICED(InputTable.SERVICED),
        LEARN(InputTable.LEARN),
        NOTE(InputTable.NOTE),
        RESET(InputTable.RESET),
        SHELVE(InputTable.SHELVE),
        UNSHELVE(InputTable.UNSHELVE),
        REMOVE(InputTable.REMOVE),
        RESTORE(InputTable.RESTORE),
        SERVICE_ON(InputTable.SERVICE_ON),
        SERVICE_OFF(InputTable.SERVICE_OFF);

        private final int inputKind;

        Kind(int inputKind) {
            this.inputKind = inputKind;
        }

        int inputKind() {
            return inputKind;
        }

        static Kind byInputKind(int inputKind) {
            for (Kind kind : values()) {
                if (kind.inputKind == inputKind) {
                    return kind;
                }
            }
            throw new IllegalArgumentException("no input is of kind " + inputKind);
        }

        static Kind of(Entry entry) {
            return switch (entry) {
                case SERVICED -> SERVICED;
                case LEARN -> LEARN;
                case NOTE -> NOTE;
                case SERVICE_ON -> SERVICE_ON;
                case SERVICE_OFF -> SERVICE_OFF;
            };
        }
    }

    /**
     * A time, an alarm and a reason in one text: {@code untilMicros length id why}, the length
     * being that of the id, so that either may hold anything.
     */
    private record AlarmAndWhy(long untilMicros, String alarmId, String why) {

        String text() {
            return untilMicros + " " + alarmId.length() + " " + alarmId + " " + why;
        }

        static AlarmAndWhy read(String text) {
            int first = text.indexOf(' ');
            int second = text.indexOf(' ', first + 1);
            int id = second + 1;
            int idEnd = id + Integer.parseInt(text, first + 1, second, 10);
            return new AlarmAndWhy(
                    Long.parseLong(text, 0, first, 10),
                    text.substring(id, idEnd),
                    text.substring(idEnd + 1));
        }
    }

    static InstructionWords of(Instruction instruction) {
        if (instruction instanceof Journal journal) {
            return new InstructionWords(Kind.of(journal.entry()), journal.by(), journal.text());
        }
        Instruction.AboutAlarm about = (Instruction.AboutAlarm) instruction;
        if (about instanceof Shelve shelve) {
            return new InstructionWords(
                    Kind.SHELVE,
                    shelve.by(),
                    new AlarmAndWhy(shelve.untilMicros(), shelve.alarmId(), shelve.why()).text());
        }
        if (about instanceof Remove remove) {
            return new InstructionWords(
                    Kind.REMOVE,
                    remove.by(),
                    new AlarmAndWhy(0, remove.alarmId(), remove.why()).text());
        }
        return new InstructionWords(plain(about), about.by(), about.alarmId());
    }

    private static Kind plain(Instruction.AboutAlarm about) {
        if (about instanceof Acknowledge) {
            return Kind.ACKNOWLEDGE;
        }
        if (about instanceof Reset) {
            return Kind.RESET;
        }
        if (about instanceof Unshelve) {
            return Kind.UNSHELVE;
        }
        if (about instanceof Restore) {
            return Kind.RESTORE;
        }
        throw new IllegalArgumentException("no word for " + about);
    }

    Instruction at(long atMicros) {
        return switch (kind) {
            case ACKNOWLEDGE -> new Acknowledge(atMicros, by, detail);
            case RESET -> new Reset(atMicros, by, detail);
            case UNSHELVE -> new Unshelve(atMicros, by, detail);
            case RESTORE -> new Restore(atMicros, by, detail);
            case SHELVE -> {
                AlarmAndWhy words = AlarmAndWhy.read(detail);
                yield new Shelve(atMicros, by, words.alarmId(), words.untilMicros(), words.why());
            }
            case REMOVE -> {
                AlarmAndWhy words = AlarmAndWhy.read(detail);
                yield new Remove(atMicros, by, words.alarmId(), words.why());
            }
            case SERVICED -> new Journal(atMicros, by, Entry.SERVICED, detail);
            case LEARN -> new Journal(atMicros, by, Entry.LEARN, detail);
            case NOTE -> new Journal(atMicros, by, Entry.NOTE, detail);
            case SERVICE_ON -> new Journal(atMicros, by, Entry.SERVICE_ON, detail);
            case SERVICE_OFF -> new Journal(atMicros, by, Entry.SERVICE_OFF, detail);
        };
    }
}
