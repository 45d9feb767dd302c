package leat.instruct;

import static java.util.Objects.requireNonNull;

import leat.signal.Instruction;
import leat.store.InstructionBox;

/**
 * What a person asks of leat, checked as far as it can be without the running leat.
 *
 * @param machine name of the machine that it is about
 * @param instruction what to do, at the time at which it was asked
 */
public record Request(String machine, Instruction instruction) {

    public Request {
        requireNonNull(machine, "machine");
        requireNonNull(instruction, "instruction");
    }

    /** Leaves it for the running leat; returns the number of the instruction. */
    public long leaveIn(InstructionBox box) {
        return box.leave(machine, instruction);
    }
}
