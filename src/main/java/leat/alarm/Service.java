package leat.alarm;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Gauge;
import leat.wire.State;

/**
 * Whether somebody works on the machine: then the alarms about its pressures are suppressed by
 * design. It ends by a person, or by itself after {@code alarm.longest_hold}, because a service
 * that nobody ended would silence the machine for good. Thread-confined to its watch.
 */
public final class Service {

    private final long longestMicros;
    private final AlarmBook alarms;
    private final Consumer<ServiceChange> changes;
    private long sinceMicros = Gauge.NEVER;
    private long untilMicros = Gauge.NEVER;

    /**
     * @param changes told of each begin and end, before the alarms are
     */
    public Service(Limits limits, AlarmBook alarms, Consumer<ServiceChange> changes) {
        longestMicros = limits.micros(Limit.ALARM_LONGEST_HOLD);
        this.alarms = alarms;
        this.changes = changes;
    }

    public boolean isOn() {
        return sinceMicros != Gauge.NEVER;
    }

    /** The work begins, or goes on for as long again. */
    public void begin(long atMicros, String by, String why) {
        boolean begins = !isOn();
        sinceMicros = begins ? atMicros : sinceMicros;
        untilMicros = atMicros + longestMicros;
        ServiceChange begin =
                new ServiceChange(atMicros, true, untilMicros, by, why, Optional.empty());
        changes.accept(begin);
        if (begins) {
            alarms.suppressPressures(begin);
        }
    }

    /** True when the longest time is over and nobody has ended it. */
    public boolean isOverdue(long atMicros) {
        return isOn() && atMicros >= untilMicros;
    }

    /**
     * What was found while people worked on the machine, and says nothing of how they leave it:
     * these rules are to be judged afresh before the service ends.
     */
    public List<Rule> foundMeanwhile() {
        return isOn() ? alarms.pressuresFoundSince(sinceMicros) : List.of();
    }

    /**
     * Somebody says that the work has ended.
     *
     * @return why that cannot be; empty when it could
     */
    public Optional<Refusal> end(long atMicros, String by, String why) {
        if (!isOn()) {
            return Optional.of(
                    new Refusal.NotNow(Refusal.Obstacle.NOT_IN_SERVICE, Optional.empty()));
        }
        end(new ServiceChange(atMicros, false, atMicros, by, why, Optional.empty()));
        return Optional.empty();
    }

    /** The longest time is over, and the service ends by itself. */
    public void endOverdue(long atMicros) {
        end(
                new ServiceChange(
                        atMicros, false, atMicros, "", "", Optional.of(Reason.NOBODY_ENDED_IT)));
    }

    private void end(ServiceChange end) {
        sinceMicros = Gauge.NEVER;
        untilMicros = Gauge.NEVER;
        changes.accept(end);
        alarms.releasePressures(end);
    }

    /** The clock was set. The service becomes no longer by it. */
    public void step(long fromMicros, long atMicros) {
        if (isOn()) {
            untilMicros = Math.min(untilMicros, atMicros + untilMicros - fromMicros);
            sinceMicros += atMicros - fromMicros;
        }
    }

    public void keep(State state) {
        sinceMicros = state.keep("sinceMicros", sinceMicros);
        untilMicros = state.keep("untilMicros", untilMicros);
    }
}
