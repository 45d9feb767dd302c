package leat.acquire.modbus;

import java.util.Set;
import leat.words.FaultWords;

/**
 * The device answered with an exception: it lives, the connection is good, the value is not to be
 * had. Codes: MODBUS Application Protocol Specification V1.1b3, section 7.
 */
final class DeviceRefused extends Exception {

    private static final long serialVersionUID = 1L;

    private static final int ILLEGAL_ADDRESS = 2;
    private static final int ILLEGAL_VALUE = 3;

    /** Codes of the specification. */
    private static final Set<Integer> MEANT = Set.of(1, 2, 3, 4, 5, 6, 8, 10, 11);

    private final int code;

    DeviceRefused(int code) {
        super("Modbus exception " + code);
        this.code = code;
    }

    int code() {
        return code;
    }

    /** True where the device might answer if fewer registers were asked for at once. */
    boolean mayBeTheExtent() {
        return code == ILLEGAL_ADDRESS || code == ILLEGAL_VALUE;
    }

    /** What the code means and what to check next. */
    String words() {
        return FaultWords.english("modbus.exception", Integer.toString(code), meaning());
    }

    private String meaning() {
        return FaultWords.english(
                "modbus.exception." + (MEANT.contains(code) ? Integer.toString(code) : "other"));
    }
}
