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

    /**
     * Leat's own time, with which inputs are stamped: it runs with the monotonic clock and never
     * steps. In microseconds UTC, as far as the computer's clock was right when leat started.
     */
    long nowMicros();
}
