package leat.acquire.modbus;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.concurrent.CompletableFuture;

/** Finds the address of a host. Thread-safe. */
@FunctionalInterface
interface HostNames {

    /** May block for minutes. */
    InetAddress address(String host) throws UnknownHostException;

    /**
     * Looks it up on a thread of its own, which ends with it. Returns at once.
     *
     * @param whenDone called on that thread, whatever came of it
     */
    default CompletableFuture<InetAddress> lookUp(String host, Runnable whenDone) {
        CompletableFuture<InetAddress> found = new CompletableFuture<>();
        Runnable work =
                () -> {
                    try {
                        found.complete(address(host));
                    } catch (UnknownHostException | RuntimeException e) {
                        found.completeExceptionally(e);
                    }
                    whenDone.run();
                };
        Thread thread = new Thread(work, "leat-lookup-" + host);
        thread.setDaemon(true);
        thread.start();
        return found;
    }
}
