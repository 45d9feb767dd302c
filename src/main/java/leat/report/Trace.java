package leat.report;

import java.util.Arrays;

/**
 * A pressure over time, ready to be drawn: seconds from the start of a startup and psi, in rising
 * time. Immutable.
 */
public final class Trace {

    private final double[] seconds;
    private final double[] psi;

    private Trace(double[] seconds, double[] psi) {
        this.seconds = seconds;
        this.psi = psi;
    }

    public int size() {
        return seconds.length;
    }

    public double second(int index) {
        return seconds[index];
    }

    public double psi(int index) {
        return psi[index];
    }

    /** Collects samples in rising time. Thread-confined. */
    public static final class Builder {

        private double[] seconds = new double[256];
        private double[] psi = new double[256];
        private int size;

        public Builder add(double second, double value) {
            if (size == seconds.length) {
                seconds = Arrays.copyOf(seconds, size * 2);
                psi = Arrays.copyOf(psi, size * 2);
            }
            seconds[size] = second;
            psi[size] = value;
            size++;
            return this;
        }

        public Trace build() {
            return new Trace(Arrays.copyOf(seconds, size), Arrays.copyOf(psi, size));
        }
    }
}
