package leat.page;

import java.time.Duration;

/** What a thread does for whoever called, and how long it may take: it is cut off then. */
enum Doing {
    /** Reads the request. A browser sends it in one piece. */
    READING(Duration.ofSeconds(2)),
    /** Makes an answer; nobody outside can make that last. */
    WORKING(Duration.ofDays(1)),
    /** Sends an answer, or a piece of a stream. */
    SENDING(Duration.ofSeconds(5)),
    /** Waits for the next second of a stream. */
    WAITING(Duration.ofDays(1));

    private final long nanos;

    Doing(Duration longest) {
        nanos = longest.toNanos();
    }

    long longestNanos() {
        return nanos;
    }
}
