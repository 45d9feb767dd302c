package leat.alarm;

import static java.util.Objects.requireNonNull;

/**
 * Somebody began or ended work on a machine, or its longest time was over. While it lasts the
 * alarms about pressures are suppressed by design.
 *
 * @param atMicros event time, microseconds UTC
 * @param on whether the machine is in service from now on
 * @param untilMicros when it ends by itself, microseconds UTC; the time of the end where it ended
 * @param by who said so; empty when its time was over
 * @param why what is being done, or why it ended; may be empty
 */
public record ServiceChange(long atMicros, boolean on, long untilMicros, String by, String why) {

    public ServiceChange {
        requireNonNull(by, "by");
        requireNonNull(why, "why");
    }
}
