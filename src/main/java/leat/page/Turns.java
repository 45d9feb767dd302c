package leat.page;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Comparator;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executor;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongSupplier;

/**
 * The threads that serve whoever calls: a fixed number, with a bounded line before them. The
 * server's own way of reading blocks a thread for as long as the other side is slow, so that a few
 * slow ones could keep everybody out. Here {@link #look} cuts off who takes too long, and, while
 * others wait, whoever has been reading the longest.
 *
 * <p>Thread-safe.
 */
final class Turns implements Executor, AutoCloseable {

    static final int THREADS = 24;

    /** From so many waiting on, an answer is that there are too many; see {@link #isCrowded}. */
    static final int CROWD = 512;

    /** While others wait, whoever has read for so long makes room. */
    private static final long PRESSED_NANOS = TimeUnit.MILLISECONDS.toNanos(80);

    private static final Duration LOOK_SOON = Duration.ofMillis(20);
    private static final Duration LOOK_LATER = Duration.ofMillis(250);
    private static final long IDLE_SECONDS = 10;
    private static final long END_MILLIS = 500;

    /** Little is called from here, and there are many. */
    private static final long STACK_BYTES = 256 * 1024;

    private final LongSupplier nanos;
    private final LinkedBlockingQueue<Runnable> waiting =
            new LinkedBlockingQueue<>(ServerBounds.CONNECTIONS);
    private final ThreadPoolExecutor threads;
    private final Map<Thread, Turn> turns = new ConcurrentHashMap<>();
    private final AtomicInteger made = new AtomicInteger();
    private final AtomicLong cut = new AtomicLong();
    private final AtomicLong refused = new AtomicLong();

    /**
     * @param nanos monotonic clock, as {@code System::nanoTime}
     */
    Turns(LongSupplier nanos) {
        this.nanos = requireNonNull(nanos, "nanos");
        threads =
                new ThreadPoolExecutor(
                        THREADS, THREADS, IDLE_SECONDS, TimeUnit.SECONDS, waiting, this::thread);
        threads.allowCoreThreadTimeOut(true);
    }

    private Thread thread(Runnable work) {
        Thread thread =
                new Thread(null, work, "leat-page-" + made.incrementAndGet(), STACK_BYTES, false);
        thread.setDaemon(true);
        return thread;
    }

    /**
     * Called by the server for each request.
     *
     * @throws RejectedExecutionException when the line is full; the server then closes the
     *     connection
     */
    @Override
    public void execute(Runnable exchange) {
        try {
            threads.execute(() -> serve(exchange));
        } catch (RejectedExecutionException e) {
            refused.incrementAndGet();
            throw e;
        }
    }

    private void serve(Runnable exchange) {
        Turn turn = new Turn(Thread.currentThread(), nanos.getAsLong());
        turns.put(Thread.currentThread(), turn);
        try {
            exchange.run();
        } finally {
            turns.remove(Thread.currentThread());
            turn.end();
        }
    }

    /** What this thread does from now on; to be said by whoever answers. */
    void begins(Doing what) {
        Turn turn = turns.get(Thread.currentThread());
        if (turn != null) {
            turn.begins(what, nanos.getAsLong());
        }
    }

    /** So many wait that the next answer should be that there are too many. */
    boolean isCrowded() {
        return waiting.size() >= CROWD;
    }

    /** Cuts off who is overdue or must make room; returns when to look again. */
    Duration look() {
        long now = nanos.getAsLong();
        turns.values().stream().filter(turn -> turn.isOverdue(now)).forEach(this::cut);
        int wanting = waiting.size();
        if (wanting == 0) {
            return LOOK_LATER;
        }
        turns.values().stream()
                .filter(turn -> turn.readingNanos(now) >= PRESSED_NANOS)
                .sorted(Comparator.comparingLong((Turn turn) -> turn.readingNanos(now)).reversed())
                .limit(wanting)
                .forEach(this::cut);
        return LOOK_SOON;
    }

    private void cut(Turn turn) {
        if (turn.cut()) {
            cut.incrementAndGet();
        }
    }

    /** How many were cut off since the start. */
    long cutOff() {
        return cut.get();
    }

    /** How many found the line full since the start. */
    long refused() {
        return refused.get();
    }

    int busy() {
        return turns.size();
    }

    @Override
    public void close() {
        threads.shutdownNow();
        try {
            threads.awaitTermination(END_MILLIS, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
