package leat.store;

import leat.signal.Instruction;
import leat.signal.Instruction.Acknowledge;
import leat.signal.Instruction.Entry;
import leat.signal.Instruction.Journal;

/**
 * An instruction taken apart into columns.
 *
 * @param kind what was asked
 * @param by who asked
 * @param detail id of the alarm, or text of the entry
 */
record InstructionWords(Kind kind, String by, String detail) {

    enum Kind {
        ACKNOWLEDGE(InputTable.ACKNOWLEDGE),
        SERVICED(InputTable.SERVICED),
        LEARN(InputTable.LEARN),
        NOTE(InputTable.NOTE);

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
            };
        }
    }

    static InstructionWords of(Instruction instruction) {
        if (instruction instanceof Acknowledge acknowledge) {
            return new InstructionWords(Kind.ACKNOWLEDGE, acknowledge.by(), acknowledge.alarmId());
        }
        Journal journal = (Journal) instruction;
        return new InstructionWords(Kind.of(journal.entry()), journal.by(), journal.text());
    }

    Instruction at(long atMicros) {
        return switch (kind) {
            case ACKNOWLEDGE -> new Acknowledge(atMicros, by, detail);
            case SERVICED -> new Journal(atMicros, by, Entry.SERVICED, detail);
            case LEARN -> new Journal(atMicros, by, Entry.LEARN, detail);
            case NOTE -> new Journal(atMicros, by, Entry.NOTE, detail);
        };
    }
}
