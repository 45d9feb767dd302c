package leat.bench.line;

/**
 * Something that is moved from one value to another over a while, and stays there. Immutable.
 *
 * @param from value until {@code begins}
 * @param to value from {@code begins + seconds} on
 * @param begins seconds of the line's own time
 * @param seconds how long it takes, above 0
 */
record Ramp(double from, double to, double begins, double seconds) {

    static Ramp standing(double value) {
        return new Ramp(value, value, 0, 1);
    }

    /** A way on from where this one is at {@code now}. */
    Ramp towards(double target, double now, double duration) {
        return new Ramp(at(now), target, now, duration);
    }

    double at(double now) {
        return from + (to - from) * Smooth.step((now - begins) / seconds);
    }
}
