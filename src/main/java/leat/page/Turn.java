package leat.page;

/**
 * One exchange on its thread. A thread that waits for the other side longer than it may is
 * interrupted, which closes the connection (see {@link java.nio.channels.InterruptibleChannel}).
 * Thread-safe.
 */
final class Turn {

    private final Thread thread;
    private Doing doing = Doing.READING;
    private long sinceNanos;
    private boolean over;

    /** Begins with reading. */
    Turn(Thread thread, long nowNanos) {
        this.thread = thread;
        sinceNanos = nowNanos;
    }

    synchronized void begins(Doing what, long nowNanos) {
        doing = what;
        sinceNanos = nowNanos;
    }

    /** How long it has been reading; below zero when it does something else. */
    synchronized long readingNanos(long nowNanos) {
        return doing == Doing.READING && !over ? nowNanos - sinceNanos : -1;
    }

    synchronized boolean isOverdue(long nowNanos) {
        return !over && nowNanos - sinceNanos > doing.longestNanos();
    }

    /** Cuts the other side off. False when the exchange was over before. */
    synchronized boolean cut() {
        if (over) {
            return false;
        }
        over = true;
        thread.interrupt();
        return true;
    }

    /** The thread is free: no cut reaches what it does next. */
    synchronized void end() {
        over = true;
        Thread.interrupted();
    }
}
