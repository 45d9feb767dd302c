package leat.acquire.modbus;

/**
 * The device answered with an exception: it lives, the connection is good, the value is not to be
 * had. Codes: MODBUS Application Protocol Specification V1.1b3, section 7.
 */
final class DeviceRefused extends Exception {

    private static final long serialVersionUID = 1L;

    private static final int ILLEGAL_ADDRESS = 2;
    private static final int ILLEGAL_VALUE = 3;

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
        return "device answered with exception " + code + ", " + meaning();
    }

    private String meaning() {
        return switch (code) {
            case 1 -> "illegal function: it does not know this table; check the table";
            case ILLEGAL_ADDRESS ->
                    "illegal data address: it has nothing there; check the address, which counts"
                            + " from 0";
            case ILLEGAL_VALUE -> "illegal data value: check the address and the data type";
            case 4 -> "device failure: look at the device";
            case 5 -> "acknowledge: it needs longer than a poll; look at the device";
            case 6 -> "device busy: poll less often, or look for other programs that poll it";
            case 8 -> "memory parity error: look at the device";
            case 10 -> "gateway path unavailable: check the gateway's settings and the unit id";
            case 11 ->
                    "gateway target failed to respond: the device behind the gateway is silent;"
                            + " check its power, its bus wiring and the unit id";
            default -> "not one of the specification: see the device's manual";
        };
    }
}
