package leat.acquire.modbus;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.nio.channels.Selector;
import java.nio.channels.SocketChannel;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import leat.acquire.Intake;
import leat.config.ConnectionSettings;

/**
 * A Modbus source that polls when a test says so: the same connection, decoding and stamps, without
 * the thread and its schedule. Confined to the test's thread.
 */
public final class PolledByHand implements Lookout, AutoCloseable {

    private final Selector selector = Selector.open();
    private final PollCounts counts = new PollCounts();
    private final Poller poller;

    /**
     * Connects at the first poll.
     *
     * @param taps the channels that come from it, each once
     * @param intake where the readings go, and what stamps them
     */
    public PolledByHand(ConnectionSettings.ModbusTcp settings, List<Tap> taps, Intake intake)
            throws IOException {
        poller = new Poller(settings, taps, this, intake, counts);
        poller.listen(System.nanoTime());
    }

    /** Reads every channel once. */
    public void poll() {
        poller.begin(System.nanoTime());
        while (poller.isPolling()) {
            long left = poller.expiryNanos() - System.nanoTime();
            if (left <= 0) {
                poller.expire();
            } else {
                await(TimeUnit.NANOSECONDS.toMillis(left) + 1);
                poller.ready();
            }
        }
    }

    /** Waits for what comes between polls, and takes it. */
    public void look() {
        await(0);
        poller.ready();
    }

    /** True while the last that was heard of the device was an answer. */
    public boolean isConnected() {
        return counts.health().connected();
    }

    private void await(long millis) {
        try {
            selector.select(key -> {}, millis);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void watch(SocketChannel channel, int operations) throws IOException {
        channel.register(selector, operations);
    }

    @Override
    public CompletableFuture<InetAddress> lookUp(String host) {
        HostNames names = InetAddress::getByName;
        return names.lookUp(host, selector::wakeup);
    }

    @Override
    public void close() throws IOException {
        poller.close();
        selector.close();
    }
}
