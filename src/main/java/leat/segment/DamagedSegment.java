package leat.segment;

/** Bytes that are no segment, or no longer the one that was written. */
public final class DamagedSegment extends Exception {

    private static final long serialVersionUID = 1L;

    DamagedSegment(String message) {
        super(message);
    }

    DamagedSegment(String message, Throwable cause) {
        super(message, cause);
    }
}
