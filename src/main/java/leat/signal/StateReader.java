package leat.signal;

/**
 * Takes up a state that {@link StateWriter} wrote. Every read of a state that is too short or holds
 * an impossible length throws {@link IllegalArgumentException}: the host then starts afresh.
 * Thread-confined.
 */
public final class StateReader {

    private final byte[] bytes;
    private int position;

    public StateReader(byte[] bytes) {
        this.bytes = bytes.clone();
    }

    public long getLong() {
        require(8);
        long value = 0;
        for (int i = 0; i < 8; i++) {
            value = value << 8 | bytes[position++] & 0xff;
        }
        return value;
    }

    public int getInt() {
        long value = getLong();
        if (value != (int) value) {
            throw new IllegalArgumentException(
                    "state is damaged: " + value + " is no 32-bit number");
        }
        return (int) value;
    }

    public boolean getBoolean() {
        require(1);
        return bytes[position++] != 0;
    }

    public double getDouble() {
        return Double.longBitsToDouble(getLong());
    }

    public String getText() {
        int size = getInt();
        if (size < 0) {
            throw new IllegalArgumentException(
                    "state is damaged: a text of " + size + " characters");
        }
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < size; i++) {
            require(2);
            text.append((char) ((bytes[position++] & 0xff) << 8 | bytes[position++] & 0xff));
        }
        return text.toString();
    }

    /** Checks that nothing is left over. */
    public void end() {
        if (position != bytes.length) {
            throw new IllegalArgumentException(
                    "state is damaged: " + (bytes.length - position) + " bytes left over");
        }
    }

    private void require(int more) {
        if (bytes.length - position < more) {
            throw new IllegalArgumentException("state is damaged: it ends at byte " + bytes.length);
        }
    }
}
