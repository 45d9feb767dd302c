package leat.work;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Arrays;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Owns the thread on which one step is done again and again until the end: its pauses, its faults
 * and its end. Steps never overlap. A step that throws is a bug: it is counted, each distinct one
 * is logged once in full, and after a short pause the next step has its turn. A test that wants to
 * see a step calls the step itself and starts no worker.
 *
 * <p>Thread-safe. The thread is a daemon thread: it keeps no program from ending.
 */
public final class Worker implements AutoCloseable {

    /** What is done again and again, on the worker's thread alone. */
    @FunctionalInterface
    public interface Step {
        /**
         * Does what is due now.
         *
         * @return how long nothing is due unless the worker is woken; zero or less: go on at once
         * @throws InterruptedException when the end came while it waited
         */
        Duration run() throws InterruptedException;
    }

    private static final Logger LOG = LoggerFactory.getLogger(Worker.class);
    private static final Duration PAUSE_AFTER_FAULT = Duration.ofMillis(200);
    private static final int SHOWN_FRAMES = 6;

    private final Step step;
    private final Duration letEnd;
    private final Duration inAll;
    private final Thread thread;
    private final Semaphore wake = new Semaphore(0);
    private final KnownFaults known = new KnownFaults();
    private volatile Faults faults = Faults.NONE;
    private volatile boolean closing;
    private boolean started;

    /**
     * Starts nothing yet.
     *
     * @param name of the thread, as people will read it in a dump
     * @param letEnd how long {@link #close} lets a running step end before it interrupts it; zero
     *     for a step that may be broken off anywhere
     * @param inAll how long {@code close} takes at most, {@code letEnd} included
     */
    public Worker(String name, Step step, Duration letEnd, Duration inAll) {
        this.step = requireNonNull(step, "step");
        this.letEnd = requireNonNull(letEnd, "letEnd");
        this.inAll = requireNonNull(inAll, "inAll");
        if (letEnd.isNegative() || inAll.compareTo(letEnd) <= 0) {
            throw new IllegalArgumentException(
                    name + ": must let its step end within its bound: " + letEnd + ", " + inAll);
        }
        thread = new Thread(this::work, name);
        thread.setDaemon(true);
    }

    /**
     * Begins with the first step.
     *
     * @return false, and nothing is done, when it was started or closed before
     */
    public synchronized boolean start() {
        if (started || closing) {
            return false;
        }
        started = true;
        thread.start();
        return true;
    }

    /** Cuts the pause short, this one or, while a step runs, the one after it. Returns at once. */
    public void wake() {
        wake.release();
    }

    /** True from the first call of {@link #close} on; a long step looks at it. */
    public boolean isClosing() {
        return closing;
    }

    /** The steps that threw. */
    public Faults faults() {
        return faults;
    }

    private void work() {
        while (!closing) {
            try {
                rest(step.run());
            } catch (InterruptedException e) {
                if (closing) {
                    Thread.currentThread().interrupt();
                } else {
                    failed(e);
                }
            } catch (RuntimeException | Error e) {
                failed(e);
            }
        }
    }

    private void rest(Duration pause) throws InterruptedException {
        if (!closing && pause.compareTo(Duration.ZERO) > 0) {
            wake.tryAcquire(pause.toNanos(), TimeUnit.NANOSECONDS);
        }
        wake.drainPermits();
    }

    private void failed(Throwable fault) {
        NoMemory.endFor(fault);
        faults = faults.and(fault);
        if (known.isNew(fault.toString())) {
            LOG.error("{}: a step failed, going on", thread.getName(), fault);
        }
        restAfterFault();
    }

    /** Only the end cuts it short: whoever wakes a worker again and again does not make it spin. */
    private void restAfterFault() {
        long end = System.nanoTime() + PAUSE_AFTER_FAULT.toNanos();
        long left = PAUSE_AFTER_FAULT.toNanos();
        while (!closing && left > 0) {
            try {
                wake.tryAcquire(left, TimeUnit.NANOSECONDS);
            } catch (InterruptedException e) {
                if (closing) {
                    Thread.currentThread().interrupt();
                }
            }
            left = end - System.nanoTime();
        }
    }

    /** As {@link #end}. */
    @Override
    public void close() {
        end();
    }

    /**
     * Ends the thread: lets the running step end, interrupts it when that takes too long, and names
     * a thread that does not end even then. Called from the step itself it only says that this was
     * the last one. An interrupt of the caller ends the wait and is kept. Further calls do no harm.
     *
     * @return whether nothing of it runs any more
     */
    public boolean end() {
        synchronized (this) {
            closing = true;
            if (!started) {
                return true;
            }
        }
        wake.release();
        if (Thread.currentThread() == thread) {
            return false;
        }
        try {
            TimeUnit.NANOSECONDS.timedJoin(thread, letEnd.toNanos());
            if (thread.isAlive()) {
                thread.interrupt();
                TimeUnit.NANOSECONDS.timedJoin(thread, inAll.minus(letEnd).toNanos());
            }
        } catch (InterruptedException e) {
            thread.interrupt();
            Thread.currentThread().interrupt();
        }
        if (thread.isAlive()) {
            LOG.warn("thread {} has not ended in time, it is at {}", thread.getName(), place());
            return false;
        }
        return true;
    }

    private String place() {
        return Arrays.stream(thread.getStackTrace()).limit(SHOWN_FRAMES).toList().toString();
    }
}
