package leat.wire;

import java.util.function.Consumer;
import java.util.zip.CRC32;

/**
 * A state as bytes: four letters that tell it from anything else, the number of this form, a
 * checksum of the rest; then the number of the host's format, a table of the names in it, and its
 * fields. The same state is always the same bytes.
 */
public final class StateBytes {

    private static final byte[] MARK = {'l', 'e', 'a', 't', 1};
    private static final int HEAD = MARK.length + Integer.BYTES;

    private StateBytes() {}

    /**
     * Writes a state down.
     *
     * @param format the host's own number for what its fields mean; it rises only for a change that
     *     names cannot bridge
     * @param fields the walk over them
     */
    public static byte[] of(int format, Consumer<State> fields) {
        Written walk = new Written();
        fields.accept(walk);
        byte[] bytes = walk.toBytes(HEAD, format);
        System.arraycopy(MARK, 0, bytes, 0, MARK.length);
        int sum = sum(bytes);
        for (int i = 0; i < Integer.BYTES; i++) {
            bytes[MARK.length + i] = (byte) (sum >>> 24 - 8 * i);
        }
        return bytes;
    }

    /**
     * Takes a state up.
     *
     * @param format the only one that the host can take up
     * @param bytes that {@link #of} gave
     * @param fields the walk over the fields of a fresh object; it is useless when this throws
     * @return how many stored fields nobody asked for
     * @throws IllegalArgumentException when the state is damaged, of another format, or does not
     *     fit the fields
     */
    public static int into(int format, byte[] bytes, Consumer<State> fields) {
        checkHead(bytes);
        Taken walk = new Taken(bytes, HEAD, format);
        fields.accept(walk);
        return walk.passedOver();
    }

    private static void checkHead(byte[] bytes) {
        if (bytes.length > 0 && bytes[0] == 0) { // until format 7 it began with eight bytes for it
            throw new IllegalArgumentException("state is of an earlier leat: this one reads names");
        }
        if (bytes.length < HEAD) {
            throw new IllegalArgumentException("state is damaged: it ends at byte " + bytes.length);
        }
        for (int i = 0; i < MARK.length; i++) {
            if (bytes[i] != MARK[i]) {
                throw new IllegalArgumentException("state is damaged, or of a form of its own");
            }
        }
        int sum = 0;
        for (int i = 0; i < Integer.BYTES; i++) {
            sum = sum << 8 | bytes[MARK.length + i] & 0xff;
        }
        if (sum != sum(bytes)) {
            throw new IllegalArgumentException("state is damaged: its checksum is another");
        }
    }

    private static int sum(byte[] bytes) {
        CRC32 sum = new CRC32();
        sum.update(bytes, HEAD, bytes.length - HEAD);
        return (int) sum.getValue();
    }
}
