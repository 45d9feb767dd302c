package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

/** The exchange with the device failed: there was no usable reply. */
final class LinkFault extends Exception {

    private static final long serialVersionUID = 1L;

    /** Kinds of failure that need different looks by a person. */
    enum Failure {
        UNKNOWN_HOST("check the spelling of the host, or write its address"),
        REFUSED("check the port, and that the device's Modbus TCP server is switched on"),
        UNREACHABLE("check the device's power, the network cable and the address"),
        NO_REPLY("check the unit id, and the power of the device behind a gateway"),
        HUNG_UP("check whether other programs use up the device's connections"),
        UNASKED("check that no other device has its address, and ask its maker for newer firmware"),
        MALFORMED("check that this port speaks Modbus TCP, and the unit id");

        private final String check;

        Failure(String check) {
            this.check = check;
        }
    }

    private final Failure kind;

    /**
     * @param kind what went wrong
     * @param what the same in words, without the endpoint
     */
    LinkFault(Failure kind, String what) {
        super(requireNonNull(what, "what"));
        this.kind = requireNonNull(kind, "kind");
    }

    /** True where no connection has come about. */
    boolean isBeforeConnected() {
        return kind == Failure.UNKNOWN_HOST
                || kind == Failure.REFUSED
                || kind == Failure.UNREACHABLE;
    }

    /** True where a new connection may be all that it takes. */
    boolean isOfTheConnection() {
        return kind == Failure.HUNG_UP || kind == Failure.UNASKED;
    }

    /** What went wrong and what to check next. */
    String words() {
        return getMessage() + "; " + kind.check;
    }
}
