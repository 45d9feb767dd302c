package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.time.Duration;

/**
 * How bad something is in the course of time: the same all along, or growing from one size to
 * another and then staying there. Immutable.
 *
 * @param from size at first
 * @param to size in the end
 * @param over how long it takes; zero for the same all along
 * @param growth by equal steps or by equal factors
 */
public record Course(double from, double to, Duration over, Growth growth) {

    /** How it gets from one size to the other. */
    public enum Growth {
        LINEAR,
        /** Wear that feeds on itself; both sizes must be on the same side of 0. */
        EXPONENTIAL
    }

    public Course {
        requireNonNull(growth, "growth");
        if (over.isNegative() || (over.isZero() && from != to)) {
            throw new IllegalArgumentException("growth needs a time above 0: " + over);
        }
        if (growth == Growth.EXPONENTIAL && !(from * to > 0)) {
            throw new IllegalArgumentException(
                    "exponential growth needs two sizes on one side of 0: " + from + ", " + to);
        }
    }

    /** The same size all along. */
    public static Course steady(double size) {
        return new Course(size, size, Duration.ZERO, Growth.LINEAR);
    }

    boolean isSteady() {
        return over.isZero();
    }

    /** Its size so long after it began. */
    double at(long micros) {
        double spanMicros = over.toNanos() / 1e3;
        double share = spanMicros > 0 ? Math.min(Math.max(micros / spanMicros, 0), 1) : 1;
        return switch (growth) {
            case LINEAR -> from + (to - from) * share;
            case EXPONENTIAL -> from * StrictMath.pow(to / from, share);
        };
    }
}
