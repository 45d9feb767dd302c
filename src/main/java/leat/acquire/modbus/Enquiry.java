package leat.acquire.modbus;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.SocketChannel;
import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import leat.acquire.modbus.Link.Event;

/**
 * One connection on which question follows answer, for a person who looks once: unlike the polling
 * thread it waits. It asks with function codes 1 to 4, for {@link Link} can do no other.
 *
 * <p>Thread-confined. Each wait ends with the time-out.
 */
final class Enquiry implements Lookout, AutoCloseable {

    private static final long MILLI = 1_000_000;

    private final HostNames names = InetAddress::getByName;
    private final Selector selector;
    private final Link link;

    Enquiry(String host, int port, Duration timeout) throws IOException {
        this.selector = Selector.open();
        this.link = new Link(host, port, timeout, this);
    }

    String endpoint() {
        return link.endpoint();
    }

    /** The words of a block; connects first where that is due. */
    int[] ask(Block block) throws LinkFault, DeviceRefused, IOException {
        if (!link.isOpen()) {
            link.close();
            Event opened = link.open();
            while (opened != Event.CONNECTED) {
                opened = next();
            }
        }
        link.ask(block);
        Event answer = next();
        while (answer != Event.ANSWERED) {
            answer = next();
        }
        return link.words().clone();
    }

    /** What lies there is taken before the time-out is looked at. */
    private Event next() throws LinkFault, DeviceRefused, IOException {
        Event event = link.progress();
        if (event != Event.NOTHING) {
            return event;
        }
        long left = link.expiryNanos() - System.nanoTime();
        if (left <= 0) {
            throw link.expire();
        }
        selector.select((left + MILLI - 1) / MILLI);
        selector.selectedKeys().clear();
        return Event.NOTHING;
    }

    @Override
    public void watch(SocketChannel channel, int operations) throws IOException {
        SelectionKey known = channel.keyFor(selector);
        if (known == null) {
            channel.register(selector, operations);
        } else {
            known.interestOps(operations);
        }
    }

    @Override
    public CompletableFuture<InetAddress> lookUp(String host) {
        return names.lookUp(host, selector::wakeup);
    }

    @Override
    public void close() throws IOException {
        link.close();
        selector.close();
    }
}
