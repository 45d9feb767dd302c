package leat.system;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * The end of a write-ahead log as a killed writer left it. The format is SQLite's, "WAL-mode File
 * Format" in its documentation: a header of 32 bytes, then frames of 24 bytes and a page, each with
 * a checksum that runs on from the one before; a frame that ends a transaction says how many pages
 * the database then has.
 *
 * @param pages written by a transaction that was not committed
 */
record WalTail(int pages) {

    private static final int HEADER = 32;
    private static final int FRAME_HEADER = 24;
    private static final int MAGIC = 0x377f0682;

    /** A log that is not there, or empty, has no pages that wait. */
    static WalTail of(Path wal) throws IOException {
        if (!Files.exists(wal) || Files.size(wal) < HEADER) {
            return new WalTail(0);
        }
        ByteBuffer log = ByteBuffer.wrap(Files.readAllBytes(wal));
        boolean bigEndian = (log.getInt(0) & 1) == 1;
        if ((log.getInt(0) & ~1) != MAGIC) {
            throw new AssertionError("no write-ahead log: " + wal);
        }
        int frame = FRAME_HEADER + log.getInt(8);
        Checksum sum = new Checksum(bigEndian);
        sum.add(log, 0, 24);
        int open = 0;
        for (int at = HEADER; at + frame <= log.capacity(); at += frame) {
            sum.add(log, at, 8);
            sum.add(log, at + FRAME_HEADER, frame - FRAME_HEADER);
            if (log.getLong(at + 8) != log.getLong(16)
                    || log.getInt(at + 16) != sum.first
                    || log.getInt(at + 20) != sum.second) {
                break; // left over from before the log began anew, or from an older tail
            }
            open = log.getInt(at + 4) == 0 ? open + 1 : 0;
        }
        return new WalTail(open);
    }

    private static final class Checksum {

        private final ByteOrder order;
        private int first;
        private int second;

        Checksum(boolean bigEndian) {
            order = bigEndian ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
        }

        void add(ByteBuffer from, int offset, int length) {
            ByteBuffer words = from.slice(offset, length).order(order);
            while (words.hasRemaining()) {
                first += words.getInt() + second;
                second += words.getInt() + first;
            }
        }
    }
}
