package leat.deliver;

import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.wire.State;

/**
 * The alarms that are not back to normal, which of them stands for which others of the same cause,
 * and since when each machine that runs has been running. Thread-confined.
 */
final class StandingAlarms {

    /** By the id of the alarm. */
    private final Map<String, StandingAlarm> byId = new LinkedHashMap<>();

    /** By the name of the machine, microseconds UTC. */
    private final Map<String, Long> running = new LinkedHashMap<>();

    Collection<StandingAlarm> all() {
        return Collections.unmodifiableCollection(byId.values());
    }

    Optional<StandingAlarm> of(String alarmId) {
        return Optional.ofNullable(byId.get(alarmId));
    }

    /** How an alarm stands after a change. */
    StandingAlarm after(Changed changed) {
        return StandingAlarm.after(of(changed.alarmId()), changed);
    }

    /** The alarm whose call stands for that of one that has just come or got worse. */
    Optional<StandingAlarm> leader(StandingAlarm alarm) {
        Long since = running.get(alarm.machine());
        return OneCause.leader(
                alarm, all(), since == null ? OptionalLong.empty() : OptionalLong.of(since));
    }

    void put(StandingAlarm alarm) {
        if (alarm.isOver()) {
            byId.remove(alarm.latest().alarmId());
        } else {
            byId.put(alarm.latest().alarmId(), alarm);
        }
    }

    /** As {@link #put}; those that it stands for notice whether it still does. */
    void changed(StandingAlarm leader) {
        put(leader);
        String id = leader.latest().alarmId();
        byId.replaceAll(
                (key, alarm) ->
                        alarm.under().filter(under -> under.leader().equals(id)).isPresent()
                                ? alarm.under(under(alarm, leader))
                                : alarm);
    }

    private static StandingAlarm.Under under(StandingAlarm alarm, StandingAlarm leader) {
        StandingAlarm.Under before = alarm.under().get();
        if (OneCause.covers(leader, alarm)) {
            return StandingAlarm.Under.of(leader);
        }
        return before.overSinceMicros().isPresent()
                ? before
                : new StandingAlarm.Under(
                        before.leader(), OptionalLong.of(leader.latest().atMicros()));
    }

    /** Those whose leader stands for them no more, in the order in which they are called. */
    List<StandingAlarm> left(long nowMicros) {
        return byId.values().stream()
                .filter(alarm -> alarm.under().isPresent())
                .filter(alarm -> OneCause.isLeft(alarm.under().get(), nowMicros))
                .sorted(OneCause.GRAVEST_FIRST)
                .toList();
    }

    /** The clock was set by which a machine is watched; no run spans that. */
    void clockSet(String machine, long byMicros) {
        byId.replaceAll(
                (id, alarm) -> alarm.machine().equals(machine) ? alarm.waitsFrom(byMicros) : alarm);
        running.remove(machine);
    }

    void runChanged(String machine, OptionalLong sinceMicros) {
        if (sinceMicros.isPresent()) {
            running.put(machine, sinceMicros.getAsLong());
        } else {
            running.remove(machine);
        }
    }

    void keep(State state) {
        Map<String, StandingAlarm> alarms =
                state.keep("standing", StandingAlarm.class, new LinkedHashMap<>(byId));
        byId.clear();
        byId.putAll(alarms);
        Map<String, Long> runs = state.keep("running", Long.class, new LinkedHashMap<>(running));
        running.clear();
        running.putAll(runs);
    }
}
