package leat.deliver;

import java.time.Duration;
import java.time.ZoneId;
import java.util.Optional;
import leat.config.RoutePolicy;
import leat.config.RouteSettings;
import leat.rule.Grade;

/**
 * Who is called, and called again, about an alarm that nobody acknowledges. A pure function of the
 * alarm, the settings and the time. Periods that went by unseen are not made up for, nor are those
 * of a route's quiet hours, unless the alarm is CRITICAL: of them only the last is told at their
 * end. Immutable.
 *
 * @param zone the site's time zone
 */
record Reminders(ZoneId zone) {

    private static final long NANOS_PER_MICRO = 1_000;

    /**
     * The call that is due and was not owed before.
     *
     * @param nowMicros event time, microseconds UTC
     */
    Optional<Again> due(StandingAlarm alarm, RouteSettings route, long nowMicros) {
        Grade grade = alarm.latest().finding().grade();
        if (alarm.unanswered().isEmpty()
                || !route.scope().carries(alarm.machine())
                || !grade.isAtLeast(route.scope().atLeast())
                || grade != Grade.CRITICAL && isQuiet(route, nowMicros)) {
            return Optional.empty();
        }
        StandingAlarm.Since since = alarm.unanswered().get();
        return times(nowMicros - since.atMicros(), route.scope().policy())
                .filter(times -> times > alarm.toldTo(route.name()).again())
                .map(times -> again(alarm, since, times));
    }

    private static Again again(StandingAlarm alarm, StandingAlarm.Since since, long times) {
        return new Again(
                alarm.machine(), alarm.latest(), alarm.why(), alarm.number(), since, times);
    }

    private boolean isQuiet(RouteSettings route, long nowMicros) {
        return route.scope()
                .policy()
                .quietHours()
                .map(hours -> hours.holdAt(Voice.instant(nowMicros), zone))
                .orElse(false);
    }

    /** How many periods have passed; 0 for the first call where it is made only then. */
    private static Optional<Long> times(long stoodMicros, RoutePolicy policy) {
        long first = policy.escalateAfter().map(Reminders::micros).orElse(0L);
        if (stoodMicros < first) {
            return Optional.empty();
        }
        long times =
                policy.repeatEvery().map(every -> (stoodMicros - first) / micros(every)).orElse(0L);
        return times > 0 || policy.escalateAfter().isPresent()
                ? Optional.of(times)
                : Optional.empty();
    }

    private static long micros(Duration time) {
        return time.toNanos() / NANOS_PER_MICRO;
    }
}
