package leat.deliver;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmEvent;
import leat.config.RouteSettings;
import leat.rule.Finding;
import leat.rule.Silence;
import leat.wire.State;

/**
 * Which channels fell silent together. Alarms of silent channels wait a moment for each other; then
 * they are one outage. Its figures are leat's own choice. Thread-confined.
 */
final class Outages {

    /** So long after the last change it is told that only a part is read again. */
    private static final long PARTLY_MICROS = 60_000_000;

    private final Wires wires;

    /** The calls that wait for others. */
    private final List<Changed> waiting = new ArrayList<>();

    private final List<Outage> outages = new ArrayList<>();

    Outages(Wires wires) {
        this.wires = wires;
    }

    /** A channel has fallen silent, which is not CRITICAL, and its connection is known. */
    boolean isOfOne(StandingAlarm alarm) {
        Finding finding = alarm.latest().finding();
        return Silence.isOfConnection(finding) && connection(alarm.changed()).isPresent();
    }

    /**
     * A call about a channel that has fallen silent waits for others.
     *
     * @return whether the alarm waits
     */
    boolean takes(StandingAlarm alarm) {
        String id = alarm.latest().alarmId();
        boolean waits = waiting.stream().anyMatch(each -> each.alarmId().equals(id));
        if (!alarm.latest().isCall()) {
            return waits;
        }
        waiting.removeIf(each -> each.alarmId().equals(id));
        if (isOfOne(alarm)) {
            waiting.add(alarm.changed());
        } else {
            leave(id); // graver now
        }
        return isOfOne(alarm);
    }

    /** An alarm has changed, and what was to be told at once was told. */
    void changed(StandingAlarm alarm) {
        String id = alarm.latest().alarmId();
        if (!alarm.latest().to().isActive()) {
            waiting.removeIf(each -> each.alarmId().equals(id));
        }
        if (!alarm.latest().isCall()) {
            outages.replaceAll(each -> each.of(id).isPresent() ? each.after(alarm.latest()) : each);
            outages.removeIf(Outage::isGone);
        }
    }

    /** Those that have waited long enough, all of them, in the order of the site, each once. */
    List<Changed> due(long nowMicros) {
        if (waiting.isEmpty()
                || Math.abs(nowMicros - waiting.get(0).change().atMicros())
                        < Silence.TOGETHER_MICROS) {
            return List.of();
        }
        List<Changed> due = wires.inOrder(waiting);
        waiting.clear();
        return due;
    }

    /** The outage that explains why a channel has fallen silent, unless it comes and goes. */
    Optional<Outage> explains(Changed call) {
        if (call.change().event() == AlarmEvent.CHATTERING) {
            return Optional.empty();
        }
        String connection = connection(call).orElse("");
        return outages.stream().filter(each -> each.explains(connection)).findFirst();
    }

    Optional<Outage> of(String alarmId) {
        return outages.stream().filter(each -> each.of(alarmId).isPresent()).findFirst();
    }

    SilentChannel channel(Changed call) {
        return SilentChannel.of(call, connection(call).orElse(""));
    }

    List<String> whole(List<SilentChannel> channels) {
        return wires.whole(channels);
    }

    private Optional<String> connection(Changed call) {
        return wires.connection(call.machine(), call.change().finding().channel());
    }

    void begin(Outage outage) {
        outages.add(outage);
    }

    /** The alarm is told by itself. */
    void leave(String alarmId) {
        outages.replaceAll(each -> each.without(alarmId));
        outages.removeIf(Outage::isGone);
    }

    void replace(Outage before, Outage after) {
        outages.replaceAll(each -> each == before ? after : each);
        outages.removeIf(Outage::isGone);
    }

    /** Those of which it is time to tell that all of it, or a part, is read again. */
    List<Outage> readAgain(long nowMicros) {
        return outages.stream()
                .filter(each -> !each.untold().isEmpty())
                .filter(
                        each ->
                                each.isAllBack()
                                        || Math.abs(nowMicros - each.movedMicros())
                                                >= PARTLY_MICROS)
                .toList();
    }

    /**
     * Whether nobody is called again about an alarm because another of its outage is, or because
     * somebody looks after the outage.
     */
    boolean standsFor(StandingAlarm alarm, RouteSettings route) {
        return of(alarm.latest().alarmId())
                .filter(
                        outage ->
                                outage.isAnswered()
                                        || outage.carriedBy(route.scope()).stream()
                                                .filter(SilentChannel::isAway)
                                                .findFirst()
                                                .filter(first -> !isOf(first, alarm))
                                                .isPresent())
                .isPresent();
    }

    private static boolean isOf(SilentChannel channel, StandingAlarm alarm) {
        return channel.alarmId().equals(alarm.latest().alarmId());
    }

    void keep(State state) {
        List<Changed> waits = state.keep("waiting", Changed.class, List.copyOf(waiting));
        waiting.clear();
        waiting.addAll(waits);
        List<Outage> kept = state.keep("outages", Outage.class, List.copyOf(outages));
        outages.clear();
        outages.addAll(kept);
    }
}
