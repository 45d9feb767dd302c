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
        changes.accept(new ServiceChange(atMicros, true, untilMicros, by, why));
        if (begins) {
            alarms.suppressPressures(atMicros, by, why);
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
     * The work has ended.
     *
     * @return why that cannot be; empty when it could
     */
    public Optional<String> end(long atMicros, String by, String why) {
        if (!isOn()) {
            return Optional.of("the machine is not in service");
        }
        sinceMicros = Gauge.NEVER;
        untilMicros = Gauge.NEVER;
        changes.accept(new ServiceChange(atMicros, false, atMicros, by, why));
        alarms.releasePressures(atMicros, by, why);
        return Optional.empty();
    }

    /** The clock was set. The service becomes no longer by it. */
    public void step(long fromMicros, long atMicros) {
        if (isOn()) {
            untilMicros = Math.min(untilMicros, atMicros + untilMicros - fromMicros);
            sinceMicros = Math.min(sinceMicros, atMicros);
        }
    }

    public void keep(State state) {
        sinceMicros = state.keep("sinceMicros", sinceMicros);
        untilMicros = state.keep("untilMicros", untilMicros);
    }
}
