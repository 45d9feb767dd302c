package leat.segment;

import java.util.zip.DataFormatException;
import java.util.zip.Deflater;
import java.util.zip.Inflater;

/**
 * A stream within a segment: its length, its length deflated (RFC 1951), and that; or 0 and the
 * plain bytes where deflating gains nothing.
 */
final class Deflated {

    /** RFC 1951 makes nothing shorter than that. */
    private static final long MOST_TIMES = 1_032;

    private Deflated() {}

    static void write(Sink plain, Sink sink) {
        byte[] best = new byte[plain.size()];
        int least = best.length;
        byte[] tried = new byte[plain.size()];
        for (int strategy : new int[] {Deflater.HUFFMAN_ONLY, Deflater.DEFAULT_STRATEGY}) {
            int size = deflate(plain, strategy, tried);
            if (size < least) {
                least = size;
                byte[] spare = best;
                best = tried;
                tried = spare;
            }
        }
        sink.number(plain.size());
        if (least < plain.size()) {
            sink.number(least);
            sink.bytes(best, least);
        } else {
            sink.number(0);
            sink.bytes(plain.array(), plain.size());
        }
    }

    /** Its size; that of {@code into} when it does not fit. */
    private static int deflate(Sink plain, int strategy, byte[] into) {
        Deflater deflater = new Deflater(Deflater.DEFAULT_COMPRESSION, true);
        try {
            deflater.setStrategy(strategy);
            deflater.setInput(plain.array(), 0, plain.size());
            deflater.finish();
            int size = 0;
            while (!deflater.finished() && size < into.length) {
                size += deflater.deflate(into, size, into.length - size);
            }
            return deflater.finished() ? size : into.length;
        } finally {
            deflater.end();
        }
    }

    static Source read(Source source) {
        int length = source.count(MOST_TIMES * source.left());
        int deflated = source.count(source.left());
        if (deflated == 0) {
            return source.part(length);
        }
        Source part = source.part(deflated);
        Inflater inflater = new Inflater(true);
        try {
            inflater.setInput(part.array(), part.position(), part.left());
            byte[] plain = new byte[length];
            if (inflater.inflate(plain) != length || !inflater.finished()) {
                throw new Source.Amiss("one of its streams has another length than it says");
            }
            return new Source(plain, 0, length);
        } catch (DataFormatException e) {
            throw new Source.Amiss("one of its streams cannot be inflated", e);
        } finally {
            inflater.end();
        }
    }
}
