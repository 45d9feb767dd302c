package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import java.util.List;
import leat.config.Point.Table;
import leat.words.FaultWords;

/**
 * What one request reads: neighbouring registers or bits of one table of one unit. Immutable.
 *
 * @param unitId 0 to 255
 * @param table which table; it alone decides the function code
 * @param address first PDU address
 * @param count registers (1 to 125) or bits (1 to 2000)
 * @param taps the channels that lie within, the first one at its start; empty where a person only
 *     wants to see what is there
 */
record Block(int unitId, Table table, int address, int count, List<Tap> taps) {

    /** Limits of one read: MODBUS Application Protocol Specification V1.1b3, 6.1 to 6.4. */
    static final int MAX_REGISTERS = 125;

    static final int MAX_BITS = 2000;

    Block {
        requireNonNull(table, "table");
        taps = List.copyOf(taps);
        if (count < 1 || count > longest(table)) {
            throw new IllegalArgumentException(
                    "one request reads 1 to " + longest(table) + " of " + table + ": " + count);
        }
    }

    /** Where it is, in words: {@code unit 1, input register 8 to 11}. */
    String place() {
        String first = Integer.toString(address);
        return Tap.place(
                unitId,
                table,
                count == 1
                        ? first
                        : FaultWords.english(
                                "range.numbers", first, Integer.toString(address + count - 1)));
    }

    static int longest(Table table) {
        return table.isBits() ? MAX_BITS : MAX_REGISTERS;
    }

    /** Index of a channel's first register within the words that this block returns. */
    int offset(Tap tap) {
        return tap.register().address() - address;
    }
}
