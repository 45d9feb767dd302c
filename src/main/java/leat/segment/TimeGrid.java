package leat.segment;

/**
 * Foretells when the next reading of a channel comes: a period after the last one, on a grid that
 * the small lateness of single readings does not move.
 */
final class TimeGrid {

    /** A reading that is further off its grid than this part of the period begins a new one. */
    private static final int NEAR = 8;

    private final long period;
    private final long near;
    private long last;

    /**
     * @param start where the grid begins, in the segment's unit of time
     */
    TimeGrid(long period, long start) {
        this.period = period;
        this.near = Math.abs(period) / NEAR;
        this.last = start;
    }

    /** How far a time is off what was foretold. */
    long residual(long time) {
        long residual = time - last - period;
        move(residual);
        return residual;
    }

    /** The time that is so far off. */
    long time(long residual) {
        long time = last + period + residual;
        move(residual);
        return time;
    }

    private void move(long residual) {
        last += period;
        if (residual > near || residual < -near) {
            last += residual;
        }
    }
}
