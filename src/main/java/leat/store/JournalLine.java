package leat.store;

import static java.util.Objects.requireNonNull;

import leat.signal.Instruction;

/**
 * What somebody did to a machine.
 *
 * @param machine name of the machine
 * @param seq the input that it was fed as
 * @param entry who, when, what
 */
public record JournalLine(String machine, long seq, Instruction.Journal entry) {

    public JournalLine {
        requireNonNull(machine, "machine");
        requireNonNull(entry, "entry");
    }
}
