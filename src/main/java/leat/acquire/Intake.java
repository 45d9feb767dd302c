package leat.acquire;

import leat.signal.Input;

/** Where sources put what they read. Thread-safe; returns at once. */
public interface Intake {

    /**
     * Offers one input of a machine.
     *
     * @return false when leat is too far behind to take it: the input is lost and counted
     */
    boolean offer(String machine, Input input);

    /** Event time now: the wall clock disciplined by the monotonic clock, microseconds UTC. */
    long nowMicros();
}
