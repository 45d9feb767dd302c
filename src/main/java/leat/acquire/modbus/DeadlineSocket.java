package leat.acquire.modbus;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.util.concurrent.TimeUnit;

/**
 * A socket whose reads share one deadline, so that a device which trickles out its reply byte by
 * byte cannot hold a poll for longer than the time-out, and which remembers how reading ended: the
 * library above it reports every end alike. Reading is confined to one thread; closing is not.
 */
final class DeadlineSocket extends Socket {

    /** How the last read ended. */
    enum End {
        NONE,
        TIME_OUT,
        CLOSED
    }

    private static final int HEADER = 6;

    private long deadlineNanos;
    private End end = End.NONE;
    private int lengthField;
    private int given;
    private int frame;

    /** Starts a new exchange: all reads from now on end at the deadline. */
    void allow(long nanos) {
        deadlineNanos = System.nanoTime() + nanos;
        end = End.NONE;
        given = 0;
        frame = HEADER;
    }

    /** True when bytes lie there that belong to no answer: the last one was read and no more. */
    boolean holdsUnasked() throws IOException {
        return super.getInputStream().available() > 0;
    }

    End end() {
        return end;
    }

    @Override
    public InputStream getInputStream() throws IOException {
        return new DeadlineStream(super.getInputStream());
    }

    private final class DeadlineStream extends FilterInputStream {

        DeadlineStream(InputStream in) {
            super(in);
        }

        @Override
        public int read() throws IOException {
            byte[] one = new byte[1];
            return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
        }

        @Override
        public int read(byte[] bytes, int offset, int length) throws IOException {
            long left = TimeUnit.NANOSECONDS.toMillis(deadlineNanos - System.nanoTime());
            if (left <= 0) {
                end = End.TIME_OUT;
                throw new SocketTimeoutException("deadline passed");
            }
            try {
                setSoTimeout((int) left);
                int count = super.read(bytes, offset, Math.min(length, frame - given));
                follow(bytes, offset, count);
                if (count < 0) {
                    end = End.CLOSED;
                }
                return count;
            } catch (SocketTimeoutException e) {
                end = End.TIME_OUT;
                throw e;
            } catch (IOException e) {
                end = End.CLOSED;
                throw e;
            }
        }

        /** A stream above reads ahead as far as it can: the frame's own length is its bound. */
        private void follow(byte[] bytes, int offset, int count) {
            for (int i = 0; i < count; i++) {
                given++;
                if (given == HEADER - 1 || given == HEADER) {
                    lengthField = (lengthField << 8 | bytes[offset + i] & 0xff) & 0xffff;
                }
            }
            if (given == HEADER) {
                frame = HEADER + Math.max(1, lengthField);
            }
        }
    }
}
