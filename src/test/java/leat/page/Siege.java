package leat.page;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Many that call and are slow, in turn each in its own way: one says nothing, one sends its request
 * a letter at a time and never ends, one asks for the stream and reads none of it, one asks for the
 * page and reads none of it. Who is cut off calls again. Confined to one thread but for its own.
 */
public final class Siege implements AutoCloseable {

    private static final int LETTER_EACH_MILLIS = 100;

    private final int port;
    private final List<Slow> callers = new ArrayList<>();
    private final Thread letters = new Thread(this::press, "siege");
    private volatile boolean over;

    private Siege(int port) {
        this.port = port;
    }

    /** One caller. */
    private static final class Slow {
        private final int nth;
        private Socket socket;

        Slow(int nth) {
            this.nth = nth;
        }

        void call(int port) throws IOException {
            if (socket != null) {
                socket.close();
            }
            socket = new Socket(InetAddress.getLoopbackAddress(), port);
            String begin =
                    switch (nth % 4) {
                        case 0 -> "";
                        case 1 -> "GET / HTTP/1.1\r\nX-";
                        case 2 -> "GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n";
                        default -> "GET / HTTP/1.1\r\nHost: localhost\r\n\r\n";
                    };
            send(begin);
        }

        void press(int port) throws IOException {
            if (nth % 4 == 1) {
                try {
                    send("x");
                } catch (IOException e) {
                    call(port); // cut off
                }
            }
        }

        private void send(String text) throws IOException {
            socket.getOutputStream().write(text.getBytes(StandardCharsets.US_ASCII));
        }
    }

    /**
     * Begins with so many.
     *
     * @param port of a page on 127.0.0.1
     */
    public static Siege of(int callers, int port) throws IOException {
        Siege siege = new Siege(port);
        for (int i = 0; i < callers; i++) {
            Slow slow = new Slow(i);
            siege.callers.add(slow);
            slow.call(port);
        }
        siege.letters.setDaemon(true);
        siege.letters.start();
        return siege;
    }

    public int callers() {
        return callers.size();
    }

    private void press() {
        try {
            while (!over) {
                for (Slow slow : callers) {
                    if (!over) {
                        pressOne(slow);
                    }
                }
                TimeUnit.MILLISECONDS.sleep(LETTER_EACH_MILLIS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void pressOne(Slow slow) {
        try {
            slow.press(port);
        } catch (IOException e) {
            // no room for it now; it calls again the next time
        }
    }

    @Override
    public void close() throws IOException {
        over = true;
        try {
            letters.join(TimeUnit.SECONDS.toMillis(10));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        for (Slow slow : callers) {
            slow.socket.close();
        }
    }
}
