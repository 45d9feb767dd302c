package leat.acquire.modbus;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.concurrent.CompletableFuture;
import java.util.regex.Pattern;

/** Finds the address of a host. Thread-safe. */
@FunctionalInterface
interface HostNames {

    /** An address in numbers: no name server is asked. No name has a colon. */
    Pattern NUMBERS = Pattern.compile("((25[0-5]|2[0-4]\\d|1?\\d?\\d)(\\.(?!$)|$)){4}|.*:.*");

    /** May block for minutes. */
    InetAddress address(String host) throws UnknownHostException;

    /**
     * Looks a name up on a thread of its own, which ends with it. Returns at once; for an address
     * in numbers with the answer.
     *
     * @param whenDone called on that thread, whatever came of it
     */
    default CompletableFuture<InetAddress> lookUp(String host, Runnable whenDone) {
        CompletableFuture<InetAddress> found = new CompletableFuture<>();
        if (NUMBERS.matcher(host).matches()) {
            complete(found, host);
            return found;
        }
        Runnable work =
                () -> {
                    complete(found, host);
                    whenDone.run();
                };
        Thread thread = new Thread(work, "leat-lookup-" + host);
        thread.setDaemon(true);
        thread.start();
        return found;
    }

    private void complete(CompletableFuture<InetAddress> found, String host) {
        try {
            found.complete(address(host));
        } catch (UnknownHostException | RuntimeException | Error e) {
            found.completeExceptionally(e);
        }
    }
}
