package leat.store;

import static java.util.Objects.requireNonNull;

import leat.signal.Order;

/**
 * What somebody did to a machine.
 *
 * @param machine name of the machine
 * @param seq the input that it was fed as
 * @param atMicros when, microseconds UTC
 * @param by who
 * @param entry what
 */
public record JournalLine(String machine, long seq, long atMicros, String by, Order.Journal entry) {

    public JournalLine {
        requireNonNull(machine, "machine");
        requireNonNull(by, "by");
        requireNonNull(entry, "entry");
    }
}
