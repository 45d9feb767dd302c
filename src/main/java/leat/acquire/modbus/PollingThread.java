package leat.acquire.modbus;

import static java.util.concurrent.TimeUnit.NANOSECONDS;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.time.Duration;
import java.util.PriorityQueue;
import java.util.Queue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CountDownLatch;
import java.util.function.Consumer;
import leat.work.Worker;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The one thread that polls all Modbus connections which share it. It waits for the next deadline
 * or the next bytes, whichever come first, takes the bytes, and then asks whoever is due. It never
 * waits for one device: names are looked up elsewhere, and no call on a socket blocks. Its waits
 * are whole milliseconds, rounded up: what falls due within one is asked in one go.
 *
 * <p>Thread-safe. The thread begins with the first source that starts and ends with the last that
 * closes. Decision 0029.
 */
public final class PollingThread {

    private static final Logger LOG = LoggerFactory.getLogger(PollingThread.class);
    private static final Duration LET_ROUND_END = Duration.ofMillis(1000);
    private static final Duration CLOSE_WITHIN = Duration.ofMillis(1500);
    private static final Duration UNTIL_CLOSED = Duration.ofMinutes(1);
    private static final long MILLI = 1_000_000;

    /** The first polls connect, and nothing is compiled yet: they do not all come at once. */
    private static final long BEGIN_APART_NANOS = 2 * MILLI;

    private static final long ALL_BEGUN_NANOS = 1000 * MILLI;

    private final HostNames names;
    private final Queue<Runnable> told = new ConcurrentLinkedQueue<>();
    private final Consumer<SelectionKey> onReady =
            key -> ready((PolledConnection) key.attachment());

    /** Confined to the thread. */
    private final PriorityQueue<PolledConnection> turns =
            new PriorityQueue<>((a, b) -> Long.signum(a.turnNanos() - b.turnNanos()));

    private volatile boolean ended;
    private volatile Selector selector;

    /** These two under the monitor. */
    private Worker worker;

    private int members;

    /** Starts no thread yet. */
    public PollingThread() {
        this(InetAddress::getByName);
    }

    PollingThread(HostNames names) {
        this.names = names;
    }

    /** Polls this connection too, from now on. */
    synchronized void join(PolledConnection connection) {
        if (members == 0) {
            begin();
        }
        long begun = Math.min(members * BEGIN_APART_NANOS, ALL_BEGUN_NANOS);
        members++;
        tell(() -> begin(connection, System.nanoTime() + begun));
    }

    /** On the thread. */
    void begin(PolledConnection connection, long startNanos) {
        connection.begin(startNanos);
        turns.add(connection);
    }

    /** Polls it no more; when this returns its connection is closed. Breaks off its poll. */
    void leave(PolledConnection connection) {
        CountDownLatch left = new CountDownLatch(1);
        boolean interrupted = false;
        tell(
                () -> {
                    turns.remove(connection);
                    connection.end();
                    left.countDown();
                });
        try {
            if (!left.await(CLOSE_WITHIN.toNanos(), NANOSECONDS)) {
                LOG.warn(
                        "{}: the thread that polls does not let go of it in time",
                        connection.name());
            }
        } catch (InterruptedException e) {
            interrupted = true;
        }
        synchronized (this) {
            members--;
            if (members == 0) {
                end();
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private void begin() {
        try {
            selector = Selector.open();
        } catch (IOException e) {
            throw new UncheckedIOException("no sockets can be watched", e);
        }
        ended = false;
        worker = new Worker("leat-modbus", this::round, LET_ROUND_END, CLOSE_WITHIN);
        worker.start();
    }

    private void end() {
        ended = true;
        selector.wakeup();
        if (worker.end()) {
            endUp();
        } else {
            LOG.warn("the watch over sockets is left to the thread that polls");
        }
    }

    /** On the thread, or after it: a selector that is in use is not closed from outside. */
    private void endUp() {
        hear();
        try {
            selector.close();
        } catch (IOException e) {
            LOG.warn("the watch over sockets did not close: {}", e.toString());
        }
    }

    private void tell(Runnable what) {
        told.add(what);
        selector.wakeup();
    }

    private Duration round() {
        if (!ended) {
            try {
                await();
            } catch (IOException e) {
                throw new UncheckedIOException("sockets cannot be watched", e);
            }
            hear();
            takeTurns();
        }
        if (ended) {
            endUp();
            return UNTIL_CLOSED;
        }
        return Duration.ZERO;
    }

    private void await() throws IOException {
        PolledConnection next = turns.peek();
        if (next == null) {
            selector.select(onReady);
            return;
        }
        long left = next.turnNanos() - System.nanoTime();
        if (left > 0) {
            selector.select(onReady, (left + MILLI - 1) / MILLI);
        } else {
            selector.selectNow(onReady);
        }
    }

    private void hear() {
        Runnable what = told.poll();
        while (what != null) {
            what.run();
            what = told.poll();
        }
    }

    /** On the thread. How late one is counts to its own turn, not to the first in the round. */
    void takeTurns() {
        long now = System.nanoTime();
        PolledConnection next = turns.peek();
        while (next != null && next.turnNanos() - now <= 0) {
            turns.remove();
            long turn = System.nanoTime();
            try {
                next.turn(turn);
            } finally {
                next.setTurn(turn);
                turns.add(next);
            }
            next = turns.peek();
        }
    }

    private void ready(PolledConnection connection) {
        long now = System.nanoTime();
        connection.ready(now);
        if (connection.wantsItsTurnSooner(now) && turns.remove(connection)) {
            connection.setTurn(now);
            turns.add(connection);
        }
    }

    Selector selector() {
        return selector;
    }

    /** Looks it up on a thread of its own; the connection is told when that is done. */
    CompletableFuture<InetAddress> lookUp(String host, PolledConnection connection) {
        return names.lookUp(host, () -> tell(() -> ready(connection)));
    }
}
