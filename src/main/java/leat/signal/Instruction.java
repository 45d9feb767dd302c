package leat.signal;

import static java.util.Objects.requireNonNull;

/**
 * What a person told leat. It reaches the watch as an input like any other, so a replay has it too.
 *
 * @param atMicros when the watch took it up, microseconds UTC; before that, when it was said
 * @param by who said it; never blank
 * @param order what is to be done
 */
public record Instruction(long atMicros, String by, Order order) implements Input {

    public Instruction {
        requireNonNull(order, "order");
        if (by == null || by.isBlank()) {
            throw new IllegalArgumentException("an instruction names who gave it");
        }
    }

    @Override
    public Instruction at(long micros) {
        return new Instruction(micros, by, order);
    }

    @Override
    public void to(Receiver receiver) {
        receiver.instruction(this);
    }
}
