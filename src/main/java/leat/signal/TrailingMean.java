package leat.signal;

import leat.wire.State;

/**
 * Mean of the values of the last so many microseconds, {@code (now - window, now]}. Constant work
 * per value. Thread-confined.
 */
public final class TrailingMean {

    /** More values than this are not kept: the oldest go first. Five seconds at 4 kHz. */
    private static final int MOST = 1 << 15;

    private final long windowMicros;
    private long[] at = new long[32];
    private double[] value = new double[32];
    private int head;
    private int size;
    private double sum;

    public TrailingMean(long windowMicros) {
        this.windowMicros = windowMicros;
    }

    /** Adds a value later than every one before it. */
    public void add(long atMicros, double v) {
        trim(atMicros);
        put(atMicros, v);
    }

    private void put(long atMicros, double v) {
        if (size == MOST) {
            dropOldest();
        }
        if (size == at.length) {
            grow();
        }
        int tail = (head + size) & (at.length - 1);
        at[tail] = atMicros;
        value[tail] = v;
        size++;
        sum += v;
    }

    /** Lets go of what is older than the window. */
    public void trim(long nowMicros) {
        long oldest = nowMicros - windowMicros;
        while (size > 0 && at[head] <= oldest) {
            dropOldest();
        }
    }

    private void dropOldest() {
        sum -= value[head];
        head = (head + 1) & (at.length - 1);
        size--;
        if (size == 0) {
            sum = 0; // no rounding is carried from one filling to the next
        }
    }

    private void grow() {
        long[] largerAt = new long[at.length * 2];
        double[] largerValue = new double[at.length * 2];
        for (int i = 0; i < size; i++) {
            int from = (head + i) & (at.length - 1);
            largerAt[i] = at[from];
            largerValue[i] = value[from];
        }
        at = largerAt;
        value = largerValue;
        head = 0;
    }

    public boolean isEmpty() {
        return size == 0;
    }

    public int size() {
        return size;
    }

    /** The mean; must not be called while empty. */
    public double mean() {
        if (size == 0) {
            throw new IllegalStateException("no value in the window");
        }
        return sum / size;
    }

    public void clear() {
        head = 0;
        size = 0;
        sum = 0;
    }

    public void keep(State state) {
        long[] times = new long[size];
        double[] values = new double[size];
        for (int i = 0; i < size; i++) {
            times[i] = at[(head + i) & (at.length - 1)];
            values[i] = value[(head + i) & (at.length - 1)];
        }
        times = state.keep("atMicros", times);
        values = state.keep("values", values);
        if (state.isTakenUp()) {
            clear();
            for (int i = 0; i < Math.min(times.length, values.length); i++) {
                put(times[i], values[i]);
            }
        }
        double kept = state.keep("sum", sum); // with the rounding that it has gathered
        sum = size == 0 ? 0 : kept;
    }
}
