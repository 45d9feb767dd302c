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

    private long deadlineNanos;
    private End end = End.NONE;

    /** Starts a new exchange: all reads from now on end at the deadline. */
    void allow(long nanos) {
        deadlineNanos = System.nanoTime() + nanos;
        end = End.NONE;
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
                int count = super.read(bytes, offset, length);
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
    }
}
