package leat.rule;

import static java.util.Objects.requireNonNull;

/**
 * How far a machine's baseline has been learned. While it is learned there is none: what was usual
 * before is out of date.
 *
 * @param atMicros when it came so far, microseconds UTC
 * @param good good starts so far
 * @param wanted so many make the baseline
 * @param cause why it is learned
 */
public record Learning(long atMicros, int good, int wanted, Cause cause) {

    /** Why a baseline is learned. */
    public enum Cause {
        /** There has been none yet. */
        FIRST,
        /** The line was serviced: what was usual before need not be so now. */
        SERVICE,
        /** A person said that the machine is sound and shall be learned anew. */
        COMMAND,
        /** A setting or a gauge is another one; the line stayed shut. */
        CHANGED
    }

    public Learning {
        requireNonNull(cause, "cause");
        if (good < 0 || wanted < 1) {
            throw new IllegalArgumentException(good + " of " + wanted);
        }
    }
}
