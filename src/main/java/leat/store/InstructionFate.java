package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.alarm.Refusal;

/**
 * What has become of an instruction.
 *
 * @param state whether it still waits
 * @param reason why it was refused; empty otherwise
 */
public record InstructionFate(State state, Optional<Refusal> reason) {

    /** What can become of an instruction. */
    public enum State {
        /** No running leat has taken it up yet. */
        WAITING,
        /** It was carried out. */
        TAKEN,
        /** It was taken up and could not be followed. */
        REFUSED
    }

    public InstructionFate {
        requireNonNull(state, "state");
        requireNonNull(reason, "reason");
    }
}
