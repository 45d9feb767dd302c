package leat.acquire.modbus;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.channels.SocketChannel;
import java.util.concurrent.CompletableFuture;

/** Who tells a {@link Link} that something has come for it. Thread-confined. */
interface Lookout {

    /**
     * Watches a socket, from now on for this and nothing else, until it is closed.
     *
     * @param operations as {@link java.nio.channels.SelectionKey} has them
     */
    void watch(SocketChannel channel, int operations) throws IOException;

    /** Looks up a host without waiting for it, and tells the link when it is done. */
    CompletableFuture<InetAddress> lookUp(String host);
}
