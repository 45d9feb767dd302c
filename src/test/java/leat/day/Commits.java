package leat.day;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/** Looks all the time what is new in the outbox, and remembers when it came and in what hour. */
final class Commits implements AutoCloseable {

    private static final long LOOK_NANOS = TimeUnit.MILLISECONDS.toNanos(3);

    /**
     * When a message was committed.
     *
     * @param notBeforeMicros real time, microseconds UTC, at which it was not there yet
     * @param hour what was going on
     */
    record Commit(long number, long notBeforeMicros, Hour hour) {}

    private final Books books;
    private final Map<Arrivals.Key, Commit> commits = new ConcurrentHashMap<>();
    private final Thread thread = new Thread(this::look, "commits");
    private volatile Hour hour = Hour.WARM_UP;
    private volatile boolean closing;

    Commits(Path database) {
        books = new Books(database);
        thread.setDaemon(true);
    }

    /** Once the database is there. */
    void start() {
        thread.start();
    }

    /** From now on. */
    void during(Hour newHour) {
        hour = newHour;
    }

    Map<Arrivals.Key, Commit> all() {
        return Map.copyOf(commits);
    }

    private void look() {
        long last = 0;
        long before = RealTime.nowMicros();
        while (!closing) {
            Hour during = hour;
            long now = RealTime.nowMicros();
            List<Books.BookedMessage> rows = books.after(last);
            for (Books.BookedMessage row : rows) {
                last = row.number();
                commits.put(
                        new Arrivals.Key(row.route(), row.id()),
                        new Commit(row.number(), before, during));
            }
            before = now;
            LockSupport.parkNanos(LOOK_NANOS);
        }
    }

    @Override
    public void close() {
        closing = true;
        try {
            thread.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        books.close();
    }
}
