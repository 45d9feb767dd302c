package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import java.util.List;
import leat.config.Point.Table;

/**
 * Neighbouring registers of a device, each time read by one request, so that two of them can make
 * one number.
 *
 * @param table of the device
 * @param address of the first one on the wire, from 0
 * @param reads what stood in them, read after read: at least one, each word 0 to 65535
 */
public record RegisterStrip(Table table, int address, List<List<Integer>> reads) {

    public RegisterStrip {
        requireNonNull(table, "table");
        reads = reads.stream().map(List::copyOf).toList();
        if (reads.stream().map(List::size).distinct().count() != 1) {
            throw new IllegalArgumentException("a strip is read once or more, always whole");
        }
    }

    /** How many registers it has. */
    public int width() {
        return reads.get(0).size();
    }
}
