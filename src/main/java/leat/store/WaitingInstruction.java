package leat.store;

import static java.util.Objects.requireNonNull;

import leat.signal.Instruction;

/**
 * An instruction that the command line has left and nobody has taken up.
 *
 * @param number its number, by which the batch marks it taken or refused
 * @param machine name of the machine that it is meant for
 * @param instruction what to do, at the time at which it was left
 */
public record WaitingInstruction(long number, String machine, Instruction instruction) {

    public WaitingInstruction {
        requireNonNull(machine, "machine");
        requireNonNull(instruction, "instruction");
    }

    /** The instruction as it is fed to the watch, at the time of being taken up. */
    public Instruction takenUp(long atMicros) {
        return instruction.at(atMicros);
    }
}
