package leat.bench.line;

/**
 * Slow wander between -1 and 1: smooth ways from one drawn value to the next. It remembers the way
 * that it is on, so that it draws once a way and not once a step. Thread-confined.
 */
final class Drift {

    private final Chance chance;
    private final Chance.Stream stream;
    private final double stepSeconds;
    private long passed = Long.MIN_VALUE;
    private double from;
    private double to;

    Drift(Chance chance, Chance.Stream stream, double stepSeconds) {
        this.chance = chance;
        this.stream = stream;
        this.stepSeconds = stepSeconds;
    }

    double at(double seconds) {
        double steps = seconds / stepSeconds;
        long step = (long) Math.floor(steps);
        if (step != passed) {
            passed = step;
            from = chance.draw(stream, step, -1, 1);
            to = chance.draw(stream, step + 1, -1, 1);
        }
        return from + (to - from) * Smooth.step(steps - step);
    }
}
