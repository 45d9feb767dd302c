package leat.interop;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.util.concurrent.ThreadLocalRandom;

/**
 * Ports of 127.0.0.1 that a server can give up and take again: they lie below those from which the
 * system serves outgoing connections (32768 and up on Linux), so that none of these takes one while
 * its server is down. Each of the JVMs that run tests side by side has ports of its own, so that
 * none takes one of another's.
 */
public final class FreePort {

    private static final int LOWEST = 15_000;
    private static final int BEYOND = 32_000;
    private static final int TRIES = 200;

    /** More than ever run side by side. */
    private static final int FORKS = 16;

    private static final int EACH = (BEYOND - LOWEST) / FORKS;
    private static final int FIRST = LOWEST + Integer.getInteger("leat.fork", 0) % FORKS * EACH;

    private FreePort() {}

    /** One that nobody listens on now. */
    public static int find() {
        for (int i = 0; i < TRIES; i++) {
            int port = ThreadLocalRandom.current().nextInt(FIRST, FIRST + EACH);
            try (ServerSocket socket =
                    new ServerSocket(port, 1, InetAddress.getLoopbackAddress())) {
                return socket.getLocalPort();
            } catch (IOException e) {
                // taken; another one is tried
            }
        }
        throw new IllegalStateException("no free port");
    }
}
