package leat.service;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Owns the thread of a stepping object: calls its step until closed, and survives a bug in it. A
 * fault is logged once in full, then counted. Thread-safe.
 */
final class Worker {

    /** What is run again and again; it waits by itself. */
    @FunctionalInterface
    interface Step {
        void run() throws InterruptedException;
    }

    private static final Logger LOG = LoggerFactory.getLogger(Worker.class);
    private static final long PAUSE_AFTER_FAULT_MILLIS = 200;

    private final Step step;
    private final Thread thread;
    private final long closeMillis;
    private volatile boolean closing;
    private volatile long faults;

    Worker(String name, Step step, long closeMillis) {
        this.step = step;
        this.closeMillis = closeMillis;
        thread = new Thread(() -> work(), name);
    }

    void start() {
        thread.start();
    }

    private void work() {
        String last = "";
        while (!closing) {
            try {
                step.run();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            } catch (RuntimeException e) {
                faults++;
                if (!e.toString().equals(last)) {
                    last = e.toString();
                    LOG.error("{}: a step failed, going on", thread.getName(), e);
                }
                pause();
            }
        }
    }

    private static void pause() {
        try {
            Thread.sleep(PAUSE_AFTER_FAULT_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Steps that failed with a bug. */
    long faults() {
        return faults;
    }

    /**
     * Lets the running step end, interrupts it if it takes too long; idempotent.
     *
     * @return false when the thread does not end even then
     */
    boolean end() {
        closing = true;
        try {
            thread.join(closeMillis);
            if (thread.isAlive()) {
                thread.interrupt();
                thread.join(closeMillis);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        if (thread.isAlive()) {
            LOG.warn("thread {} does not end", thread.getName());
            return false;
        }
        return true;
    }
}
