package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import leat.config.ChannelSettings;
import leat.config.Point;
import leat.signal.Keyword;
import leat.words.FaultWords;

/**
 * One channel of a machine that a Modbus device delivers. Immutable.
 *
 * @param machine name of the machine
 * @param settings its channel; the point is a {@link Point.Register} within the device's tables
 */
public record Tap(String machine, ChannelSettings settings) {

    private static final int TABLE_SIZE = 65_536;
    private static final int MAX_UNIT_ID = 255;

    public Tap {
        requireNonNull(machine, "machine");
        if (!(settings.point() instanceof Point.Register register)) {
            throw new IllegalArgumentException(
                    machine + " " + settings.channel().key() + " does not come from a register");
        }
        if (register.unitId() < 0 || register.unitId() > MAX_UNIT_ID) {
            throw new IllegalArgumentException("unit id must be 0 to 255: " + register.unitId());
        }
        if (register.address() < 0 || register.address() + register.width() > TABLE_SIZE) {
            throw new IllegalArgumentException(
                    "address must be 0 to " + (TABLE_SIZE - register.width()) + ": " + register);
        }
    }

    Point.Register register() {
        return (Point.Register) settings.point();
    }

    /** Where the number is, in words: {@code unit 1, input register 8}. */
    String place() {
        Point.Register register = register();
        return place(register.unitId(), register.table(), Integer.toString(register.address()));
    }

    static String place(int unitId, Point.Table table, String addresses) {
        return FaultWords.english(
                "place." + Keyword.of(table), Integer.toString(unitId), addresses);
    }
}
