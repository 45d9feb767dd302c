package leat.alarm;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.rule.Finding;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Gauge;

/**
 * How often an alarm came lately, and whether it chatters: then it is kept active, its repeats are
 * counted, and it is let go once its condition has kept still for long enough. Immutable.
 *
 * @param recent when it came lately, at most as often as it takes to chatter, oldest first
 * @param latest while it chatters, what was found last; empty while it does not chatter
 * @param present while it chatters, whether the condition holds just now
 * @param movedMicros while it chatters, when the condition last came, went or changed its grade
 */
record Chatter(List<Long> recent, Optional<Finding> latest, boolean present, long movedMicros) {

    static final Chatter NONE = new Chatter(List.of(), Optional.empty(), false, Gauge.NEVER);

    Chatter {
        recent = List.copyOf(recent);
        requireNonNull(latest, "latest");
    }

    /**
     * When an alarm chatters.
     *
     * @param count so many activations
     * @param windowMicros within so long
     * @param quietMicros it has stopped when its condition has kept still for so long
     */
    record Measure(int count, long windowMicros, long quietMicros) {

        static Measure of(Limits limits) {
            return new Measure(
                    (int) Math.round(limits.get(Limit.ALARM_CHATTER_COUNT)),
                    limits.micros(Limit.ALARM_CHATTER_WINDOW),
                    limits.micros(Limit.ALARM_CHATTER_QUIET));
        }
    }

    boolean isOn() {
        return latest.isPresent();
    }

    /** The condition came; it may be chattering from now on. */
    Chatter came(Finding finding, Measure measure) {
        List<Long> times = new ArrayList<>(recent);
        times.removeIf(then -> finding.atMicros() - then > measure.windowMicros());
        times.add(finding.atMicros());
        if (times.size() > measure.count()) {
            times.remove(0);
        }
        return times.size() >= measure.count()
                ? new Chatter(times, Optional.of(finding), true, finding.atMicros())
                : new Chatter(times, Optional.empty(), false, Gauge.NEVER);
    }

    /** True when it came so lately that it is the same trouble still. */
    boolean isRecent(long atMicros, Measure measure) {
        return !recent.isEmpty()
                && atMicros - recent.get(recent.size() - 1) <= measure.windowMicros();
    }

    /** Chattering on: the condition is there, at this grade. */
    Chatter found(Finding finding) {
        return new Chatter(recent, Optional.of(finding), true, finding.atMicros());
    }

    /** Chattering on: the condition is gone. */
    Chatter gone(Finding last, long atMicros) {
        return new Chatter(recent, Optional.of(last), false, atMicros);
    }

    /** True when the condition has kept still for long enough. */
    boolean hasSettled(long atMicros, Measure measure) {
        return isOn() && atMicros - movedMicros >= measure.quietMicros();
    }

    /** The clock was set: what was counted by the old time no longer counts. */
    Chatter afterStep(long fromMicros, long atMicros) {
        return new Chatter(
                List.of(),
                latest.map(finding -> finding.moved(atMicros - fromMicros)),
                present,
                isOn() ? atMicros : Gauge.NEVER);
    }
}
