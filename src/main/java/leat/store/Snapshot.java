package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;

/**
 * The state of a watch after it had taken an input. Holds a copy of the bytes and gives out copies:
 * immutable.
 *
 * @param machine name of the machine
 * @param seq the last input that the state has taken
 * @param atMicros event time of that input, microseconds UTC
 * @param format version of the format of {@code state}
 * @param state the state as the watch wrote it
 */
public record Snapshot(String machine, long seq, long atMicros, int format, byte[] state) {

    public Snapshot {
        requireNonNull(machine, "machine");
        state = state.clone();
    }

    @Override
    public byte[] state() {
        return state.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Snapshot that
                && machine.equals(that.machine)
                && seq == that.seq
                && atMicros == that.atMicros
                && format == that.format
                && Arrays.equals(state, that.state);
    }

    @Override
    public int hashCode() {
        return 31 * machine.hashCode() + Long.hashCode(seq);
    }

    @Override
    public String toString() {
        return "Snapshot[" + machine + " after " + seq + ", " + state.length + " bytes]";
    }
}
