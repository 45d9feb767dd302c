package leat.bench.line;

/** Slow wander between -1 and 1: smooth ways from one drawn value to the next. Immutable. */
record Drift(Chance chance, Chance.Stream stream, double stepSeconds) {

    double at(double seconds) {
        double steps = seconds / stepSeconds;
        long passed = (long) Math.floor(steps);
        double from = chance.draw(stream, passed, -1, 1);
        double to = chance.draw(stream, passed + 1, -1, 1);
        return from + (to - from) * Smooth.step(steps - passed);
    }
}
