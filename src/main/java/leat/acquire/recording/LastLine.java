package leat.acquire.recording;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.Charset;
import java.nio.file.Path;
import leat.files.GivenFile;

/**
 * The last line of a file, where it has no line end: it may have been cut off in a number, which
 * then reads as another number.
 *
 * @param from where it starts, bytes
 * @param text what is there of it; empty when the file ends with a line end
 */
record LastLine(long from, String text) {

    private static final int LONGEST = 1 << 16;

    static LastLine of(Path file, Charset charset) throws IOException {
        try (SeekableByteChannel channel = new GivenFile(file).open()) {
            long size = channel.size();
            ByteBuffer tail = ByteBuffer.allocate((int) Math.min(size, LONGEST));
            channel.position(size - tail.capacity());
            while (tail.hasRemaining() && channel.read(tail) >= 0) {
                // until the tail is there
            }
            byte[] bytes = tail.array();
            int start = bytes.length;
            while (start > 0 && bytes[start - 1] != '\n' && bytes[start - 1] != '\r') {
                start--;
            }
            return new LastLine(
                    size - (bytes.length - start),
                    new String(bytes, start, bytes.length - start, charset));
        }
    }

    /** Whether it is a row that lacks cells. */
    boolean lacksCells(char separator, int width) {
        if (text.isBlank() || text.startsWith("#")) {
            return false;
        }
        try {
            return CsvReader.builder()
                            .fieldSeparator(separator)
                            .ofSingleCsvRecord(text)
                            .getFieldCount()
                    < width;
        } catch (CsvParseException e) {
            return true;
        }
    }

    /** Whether it is a row, whole or not. */
    boolean isRow() {
        return !text.isBlank() && !text.startsWith("#");
    }

    /** The file without this line. */
    InputStream without(InputStream in) {
        return new FilterInputStream(in) {
            private long left = from;

            @Override
            public int read() throws IOException {
                int next = left > 0 ? super.read() : -1;
                left -= next < 0 ? 0 : 1;
                return next;
            }

            @Override
            public int read(byte[] into, int offset, int length) throws IOException {
                if (left == 0) {
                    return -1;
                }
                int got = super.read(into, offset, (int) Math.min(length, left));
                left -= Math.max(got, 0);
                return got;
            }

            @Override
            public long skip(long count) throws IOException {
                long skipped = super.skip(Math.min(count, left));
                left -= skipped;
                return skipped;
            }
        };
    }
}
