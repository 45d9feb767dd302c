package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.config.RoutePolicy;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.rule.Grade;

/**
 * Who is called, and called again, about an alarm that nobody acknowledges. A pure function of the
 * alarm, the settings and the time: the message of a period has the same id whenever it is asked
 * for, so that the outbox takes it once, also after a restart. Periods that went by unseen are not
 * made up for, nor are those of a route's quiet hours, unless the alarm is CRITICAL: of them only
 * the last is told at their end. Immutable.
 */
public final class Reminders {

    /** Whether a route was owed the message of this id. */
    @FunctionalInterface
    public interface Owes {
        boolean owes(String route, String messageId);
    }

    private static final long NANOS_PER_MICRO = 1_000;

    private final List<RouteSettings> routes;
    private final ZoneId zone;
    private final Wording wording;

    public Reminders(Site site) {
        this.routes = requireNonNull(site, "site").routes();
        this.zone = site.zone();
        this.wording = new Wording(site);
    }

    /**
     * Whether a message is one of these.
     *
     * @param event in the word of its JSON
     */
    public static boolean isReminder(String event) {
        return Reminder.isEvent(event);
    }

    /**
     * @param nowMicros event time, microseconds UTC
     * @param before what was owed before; only a shortcut
     */
    public List<Addressed> due(Unanswered alarm, long nowMicros, Owes before) {
        List<Addressed> due = new ArrayList<>();
        for (RouteSettings route : routes) {
            Grade grade = alarm.latest().finding().grade();
            if (route.scope().carries(alarm.machine())
                    && grade.isAtLeast(route.scope().atLeast())
                    && (grade == Grade.CRITICAL || !isQuiet(route, nowMicros))) {
                reminder(alarm, nowMicros, route.scope().policy())
                        .filter(r -> !before.owes(route.name(), r.id()))
                        .ifPresent(
                                r ->
                                        due.add(
                                                new Addressed(
                                                        route.name(),
                                                        wording.reminder(alarm, r, nowMicros))));
            }
        }
        return List.copyOf(due);
    }

    private boolean isQuiet(RouteSettings route, long nowMicros) {
        return route.scope()
                .policy()
                .quietHours()
                .map(hours -> hours.holdAt(Voice.instant(nowMicros), zone))
                .orElse(false);
    }

    private static Optional<Reminder> reminder(
            Unanswered alarm, long nowMicros, RoutePolicy policy) {
        long stood = nowMicros - alarm.sinceMicros();
        long first = policy.escalateAfter().map(Reminders::micros).orElse(0L);
        if (stood < first) {
            return Optional.empty();
        }
        long times = policy.repeatEvery().map(every -> (stood - first) / micros(every)).orElse(0L);
        if (times > 0) {
            return Optional.of(Reminder.again(alarm, times));
        }
        return policy.escalateAfter().map(after -> Reminder.escalated(alarm));
    }

    private static long micros(Duration time) {
        return time.toNanos() / NANOS_PER_MICRO;
    }
}
