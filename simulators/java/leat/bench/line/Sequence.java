package leat.bench.line;

/**
 * The machine's own order of a start: valve, then contactor, then, when the level is reached or has
 * been waited for long enough, the intensifier. Thread-confined. Delays invented.
 */
final class Sequence {

    /** Share of the set level that counts as reached. */
    static final double REACHED_SHARE = 0.85;

    private static final double STROKES_AFTER_LEVEL_SECONDS = 1;
    private static final double STROKES_LATEST_SECONDS = 8;

    /** Rounding that the sum of spans may be short of an edge by, seconds. */
    static final double JUST = 1e-6;

    private final double boosterDelaySeconds;
    private boolean running;
    private boolean levelReached;
    private boolean contactorClosed;
    private double contactorAt = Double.POSITIVE_INFINITY;
    private double strokesAt = Double.POSITIVE_INFINITY;

    Sequence(Build build) {
        boosterDelaySeconds = build.boosterDelaySeconds();
    }

    void start(double now) {
        running = true;
        levelReached = false;
        contactorAt = now + boosterDelaySeconds;
        strokesAt = now + STROKES_LATEST_SECONDS;
    }

    void stop() {
        running = false;
        contactorClosed = false;
        contactorAt = Double.POSITIVE_INFINITY;
        strokesAt = Double.POSITIVE_INFINITY;
    }

    boolean isRunning() {
        return running;
    }

    boolean isContactorClosed() {
        return contactorClosed;
    }

    /** Closes the contactor if its time has come. */
    void pass(double now) {
        contactorClosed = now + JUST >= contactorAt;
    }

    boolean awaitsLevel() {
        return running && !levelReached;
    }

    void levelReached(double now) {
        levelReached = true;
        strokesAt = Math.min(strokesAt, now + STROKES_AFTER_LEVEL_SECONDS);
    }

    boolean strokesDue(double now) {
        return now + JUST >= strokesAt;
    }

    double nextEdge(double now) {
        double contactor = contactorAt > now + JUST ? contactorAt : Double.POSITIVE_INFINITY;
        double strokes = strokesAt > now + JUST ? strokesAt : Double.POSITIVE_INFINITY;
        return Math.min(contactor, strokes);
    }
}
