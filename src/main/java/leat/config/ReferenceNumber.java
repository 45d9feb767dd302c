package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.Locale;
import java.util.Optional;

/**
 * An address in the style of many manuals: the first digit tells the table, the others count from
 * 1. Example: 40101 is holding register 101 there, and address 100 on the wire. Larger devices have
 * six digits: 400101.
 *
 * @param written as it stands in the file
 * @param style the first number of its table, such as 40001
 * @param table that the first digit tells
 */
public record ReferenceNumber(int written, int style, Point.Table table) {

    private static final int FIVE_DIGITS = 10_000;
    private static final int SIX_DIGITS = 100_000;

    public ReferenceNumber {
        requireNonNull(table, "table");
    }

    /** Empty for what cannot be one. A coil has no digit in front, or a 0. */
    public static Optional<ReferenceNumber> of(int written) {
        int size = written < SIX_DIGITS ? FIVE_DIGITS : SIX_DIGITS;
        int counted = written % size;
        if (counted < 1 || counted > AddressForm.ADDRESSES) {
            return Optional.empty();
        }
        int style = written - counted + 1;
        return switch (written / size) {
            case 1 -> Optional.of(new ReferenceNumber(written, style, Point.Table.DISCRETE_INPUT));
            case 3 -> Optional.of(new ReferenceNumber(written, style, Point.Table.INPUT_REGISTER));
            case 4 ->
                    Optional.of(new ReferenceNumber(written, style, Point.Table.HOLDING_REGISTER));
            default -> Optional.empty();
        };
    }

    /** Registers are taken for one another, and bits. */
    boolean isLike(Point.Table other) {
        return table.isBits() == other.isBits();
    }

    private int counted() {
        return written - style + 1;
    }

    public String words() {
        return written
                + " looks like the "
                + style
                + " style: "
                + table.name().toLowerCase(Locale.ROOT).replace('_', ' ')
                + " "
                + counted()
                + " there is address "
                + (counted() - 1)
                + " here";
    }

    /** What to write for it. */
    String meant() {
        return "if so, write table: "
                + table.name().toLowerCase(Locale.ROOT)
                + ", address: "
                + (counted() - 1);
    }
}
