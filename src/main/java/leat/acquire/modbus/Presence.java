package leat.acquire.modbus;

/**
 * Whether one channel is heard. A gap becomes a loss when it has lasted for the bound; a loss is
 * reported once, and so is its end. Thread-confined.
 */
final class Presence {

    private final long boundNanos;
    private long heardNanos;
    private boolean lost;

    /**
     * @param boundNanos silence that makes a loss
     */
    Presence(long boundNanos) {
        this.boundNanos = boundNanos;
    }

    /** It was heard, or is listened for from now on. */
    void heard(long nowNanos) {
        heardNanos = nowNanos;
    }

    /** True when the silence is long enough for a loss that is not reported yet. */
    boolean isLossDue(long nowNanos) {
        return !lost && silentNanos(nowNanos) >= boundNanos;
    }

    long silentNanos(long nowNanos) {
        return nowNanos - heardNanos;
    }

    boolean isLost() {
        return lost;
    }

    void reportedLost() {
        lost = true;
    }

    void reportedBack() {
        lost = false;
    }
}
