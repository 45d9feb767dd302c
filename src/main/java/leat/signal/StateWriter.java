package leat.signal;

import java.util.Arrays;

/**
 * Writes the state of a watch down, field by field, big-endian. {@link StateReader} takes it up
 * again in the same order. Thread-confined.
 */
public final class StateWriter {

    private byte[] bytes = new byte[1024];
    private int length;

    public void putLong(long value) {
        reserve(8);
        for (int shift = 56; shift >= 0; shift -= 8) {
            bytes[length++] = (byte) (value >>> shift);
        }
    }

    public void putInt(int value) {
        putLong(value);
    }

    public void putBoolean(boolean value) {
        reserve(1);
        bytes[length++] = (byte) (value ? 1 : 0);
    }

    /**
     * Keeps every bit, NaN and negative zero included: the restored state must be the very same.
     */
    public void putDouble(double value) {
        putLong(Double.doubleToRawLongBits(value));
    }

    public void putText(String text) {
        putInt(text.length());
        reserve(2 * text.length());
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            bytes[length++] = (byte) (c >>> 8);
            bytes[length++] = (byte) c;
        }
    }

    public byte[] toBytes() {
        return Arrays.copyOf(bytes, length);
    }

    private void reserve(int more) {
        if (length + more > bytes.length) {
            bytes = Arrays.copyOf(bytes, Math.max(bytes.length * 2, length + more));
        }
    }
}
