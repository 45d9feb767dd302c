package leat.segment;

import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.zip.CRC32;
import leat.signal.Input;

/** Writes and reads segments. Thread-safe. */
public final class Segments {

    static final byte[] MARK = {'l', 'e', 'a', 't', 1};

    private static final int CHECKSUM_BYTES = 4;

    private Segments() {}

    /**
     * @param inputs in the order in which they were fed, at least one
     * @return the same as bytes, with a checksum
     */
    public static byte[] write(List<Input> inputs) {
        if (inputs.isEmpty()) {
            throw new IllegalArgumentException("a segment holds an input at least");
        }
        Sink body = new Sink();
        body.bytes(MARK, MARK.length);
        new Encoder(inputs).into(body);
        CRC32 checksum = new CRC32();
        checksum.update(body.array(), 0, body.size());
        body.fixed((int) checksum.getValue());
        return body.copy();
    }

    /**
     * Hands out what {@link #write} was given, in the same order.
     *
     * @throws DamagedSegment when these bytes are not what was written; then nothing was handed out
     *     whose checksum is wrong
     */
    public static void read(byte[] segment, Consumer<Input> receiver) throws DamagedSegment {
        requireWhole(segment);
        Source body = new Source(segment, MARK.length, segment.length - CHECKSUM_BYTES);
        Decoder decoder = whole(() -> new Decoder(body));
        while (decoder.hasNext()) {
            receiver.accept(whole(decoder::next));
        }
    }

    /** A number that nothing stands for is found by whoever makes something of it. */
    private static <T> T whole(Supplier<T> step) throws DamagedSegment {
        try {
            return step.get();
        } catch (IllegalArgumentException e) {
            throw new DamagedSegment(e.getMessage(), e);
        }
    }

    private static void requireWhole(byte[] segment) throws DamagedSegment {
        if (segment.length < MARK.length + CHECKSUM_BYTES) {
            throw new DamagedSegment("it is too short");
        }
        for (int i = 0; i < MARK.length - 1; i++) {
            if (segment[i] != MARK[i]) {
                throw new DamagedSegment("it does not begin like one");
            }
        }
        int end = segment.length - CHECKSUM_BYTES;
        CRC32 checksum = new CRC32();
        checksum.update(segment, 0, end);
        if ((int) checksum.getValue() != new Source(segment, end, segment.length).fixed()) {
            throw new DamagedSegment("its checksum is wrong");
        }
        if (segment[MARK.length - 1] != MARK[MARK.length - 1]) {
            throw new DamagedSegment("it is of a version that this leat does not know");
        }
    }
}
