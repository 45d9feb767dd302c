package leat.measure;

import leat.wire.State;

/** One pressure over time, oldest first: a queue of samples of bounded size. Thread-confined. */
public final class Curve {

    /** Two minutes at 500 Hz; more is cut off at the old end. */
    private static final int MOST = 1 << 16;

    private long[] at = new long[64];
    private double[] psi = new double[64];
    private int head;
    private int size;

    public void add(long atMicros, double value) {
        if (size == at.length) {
            if (size == MOST) {
                dropFirst();
            } else {
                grow();
            }
        }
        int tail = (head + size) & (at.length - 1);
        at[tail] = atMicros;
        psi[tail] = value;
        size++;
    }

    /** Lets go of every sample before {@code atMicros}. */
    public void dropBefore(long atMicros) {
        while (size > 0 && at[head] < atMicros) {
            dropFirst();
        }
    }

    public int size() {
        return size;
    }

    public long at(int index) {
        return at[(head + index) & (at.length - 1)];
    }

    public double psi(int index) {
        return psi[(head + index) & (at.length - 1)];
    }

    /** Index of the first sample at or after a time; {@link #size} when there is none. */
    public int indexFrom(long atMicros) {
        int low = 0;
        int high = size;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (at(middle) < atMicros) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    public void clear() {
        head = 0;
        size = 0;
    }

    private void dropFirst() {
        head = (head + 1) & (at.length - 1);
        size--;
    }

    private void grow() {
        long[] largerAt = new long[at.length * 2];
        double[] largerPsi = new double[at.length * 2];
        for (int i = 0; i < size; i++) {
            largerAt[i] = at(i);
            largerPsi[i] = psi(i);
        }
        at = largerAt;
        psi = largerPsi;
        head = 0;
    }

    void keep(State state) {
        long[] times = new long[size];
        double[] values = new double[size];
        for (int i = 0; i < size; i++) {
            times[i] = at(i);
            values[i] = psi(i);
        }
        times = state.keep("atMicros", times);
        values = state.keep("psi", values);
        if (state.isTakenUp()) {
            clear();
            for (int i = 0; i < Math.min(times.length, values.length); i++) {
                add(times[i], values[i]);
            }
        }
    }
}
