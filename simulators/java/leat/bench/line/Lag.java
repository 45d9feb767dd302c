package leat.bench.line;

/**
 * A value that follows its target as a first-order section, stepped exactly and alike on every
 * machine: a target that holds still during the step is followed without error, whatever the step.
 * Thread-confined.
 */
public final class Lag {

    private double value;

    public Lag(double value) {
        this.value = value;
    }

    /**
     * Follows {@code target} for a while.
     *
     * @param timeConstant seconds, above 0
     * @param seconds how long, 0 or more
     * @return the value now
     */
    public double follow(double target, double timeConstant, double seconds) {
        value += (target - value) * -StrictMath.expm1(-seconds / timeConstant);
        return value;
    }

    public double value() {
        return value;
    }
}
