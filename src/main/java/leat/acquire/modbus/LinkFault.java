package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import leat.signal.Keyword;
import leat.words.FaultWords;

/** The exchange with the device failed: there was no usable reply. */
final class LinkFault extends Exception {

    private static final long serialVersionUID = 1L;

    /** Kinds of failure that need different looks by a person. */
    enum Failure {
        UNKNOWN_HOST,
        REFUSED,
        UNREACHABLE,
        NO_REPLY,
        HUNG_UP,
        UNASKED,
        MALFORMED
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
        String check = FaultWords.english("check." + Keyword.of(kind));
        return FaultWords.english("check", getMessage(), check);
    }
}
