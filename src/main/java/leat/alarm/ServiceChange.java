package leat.alarm;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * Somebody began or ended work on a machine, or its longest time was over. While it lasts the
 * alarms about pressures are suppressed by design.
 *
 * @param atMicros event time, microseconds UTC
 * @param on whether the machine is in service from now on
 * @param untilMicros when it ends by itself, microseconds UTC; the time of the end where it ended
 * @param by who said so; empty when its time was over
 * @param why what is being done, or what a person wrote at the end; may be empty
 * @param reason why leat itself ended it; empty for what a person did
 */
public record ServiceChange(
        long atMicros,
        boolean on,
        long untilMicros,
        String by,
        String why,
        Optional<Reason> reason) {

    public ServiceChange {
        requireNonNull(by, "by");
        requireNonNull(why, "why");
        requireNonNull(reason, "reason");
    }
}
