package leat.bench.line;

/**
 * Something that goes from one value to another as a first-order section does, and so forgets in
 * how many small changes it was sent there. Immutable.
 *
 * @param from value at {@code begins}
 * @param to value it ends at
 * @param begins seconds of the line's own time
 * @param timeConstant seconds, above 0
 */
record Approach(double from, double to, double begins, double timeConstant) {

    /** After that many time constants it has arrived, to the last digit that matters. */
    private static final double ARRIVED = 20;

    static Approach standing(double value) {
        return new Approach(value, value, 0, 1);
    }

    /** A way on from where this one is at {@code now}. */
    Approach towards(double target, double now, double newTimeConstant) {
        return new Approach(at(now), target, now, newTimeConstant);
    }

    double at(double now) {
        double passed = (now - begins) / timeConstant;
        return from == to || passed > ARRIVED
                ? to
                : to + (from - to) * StrictMath.exp(-Math.max(passed, 0));
    }
}
