package leat.deliver;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.RouteScope;

/**
 * Channels that fell silent together: what they hang on is away, a device, a broker, or the switch
 * before several. Its alarms are one call and, when all are read again, one piece of news.
 * Immutable.
 *
 * @param channels in the order in which they were told
 * @param calls by the name of the route, the id of the call that stands for all of them there
 * @param news how often it was told that some are read again
 * @param untold the messages that wait for the next time
 * @param movedMicros when the alarm of a channel changed last, microseconds UTC
 * @param over whether all have been told to be read again; what people do with the alarms that are
 *     left still belongs to it
 */
record Outage(
        List<SilentChannel> channels,
        Map<String, String> calls,
        long news,
        List<Untold> untold,
        long movedMicros,
        boolean over) {

    /**
     * That a channel is read again, to be told with the others.
     *
     * @param route name of the route
     * @param id of the message
     * @param channel as it came back
     */
    record Untold(String route, String id, SilentChannel channel) {}

    Outage {
        channels = List.copyOf(channels);
        calls = Collections.unmodifiableMap(new LinkedHashMap<>(calls));
        untold = List.copyOf(untold);
    }

    static Outage of(List<SilentChannel> channels, long nowMicros) {
        return new Outage(channels, Map.of(), 0, List.of(), nowMicros, false);
    }

    Optional<SilentChannel> of(String alarmId) {
        return channels.stream().filter(each -> each.alarmId().equals(alarmId)).findFirst();
    }

    /** Those that a route is told of. */
    List<SilentChannel> carriedBy(RouteScope scope) {
        return channels.stream().filter(each -> scope.carries(each.machine())).toList();
    }

    /** The call that stands for all of them on a route. */
    Optional<String> call(String route) {
        return Optional.ofNullable(calls.get(route));
    }

    /** Whether it is known there already that what this connection brings does not come. */
    boolean explains(String connection) {
        return !over
                && channels.stream()
                        .anyMatch(each -> each.isAway() && each.connection().equals(connection));
    }

    boolean isAnswered() {
        return channels.stream().anyMatch(SilentChannel::acknowledged);
    }

    boolean isAllBack() {
        return channels.stream().noneMatch(SilentChannel::isAway);
    }

    /** Nothing is left of it. */
    boolean isGone() {
        return channels.isEmpty() && untold.isEmpty();
    }

    /** Id of the next news on a route: alarm, revision, what this is, and its number. */
    String newsId(String route) {
        return calls.get(route) + "/" + OutageOver.EVENT + "/" + (news + 1);
    }

    /** What the next news on a route tells, in the order of its call. */
    List<Untold> untoldTo(String route) {
        List<String> order = channels.stream().map(SilentChannel::alarmId).toList();
        return untold.stream()
                .filter(each -> each.route().equals(route))
                .sorted(Comparator.comparingInt(each -> order.indexOf(each.channel().alarmId())))
                .toList();
    }

    Outage told(String route, String callId) {
        Map<String, String> all = new LinkedHashMap<>(calls);
        all.put(route, callId);
        return new Outage(channels, all, news, untold, movedMicros, over);
    }

    Outage waitsToTell(String route, Changed back) {
        List<Untold> all = new ArrayList<>(untold);
        SilentChannel channel = of(back.alarmId()).orElseThrow().after(back.change());
        all.add(new Untold(route, back.id(), channel));
        return new Outage(channels, calls, news, all, movedMicros, over);
    }

    /** With a further channel, which delays no news of the others. */
    Outage and(SilentChannel channel) {
        List<SilentChannel> all = new ArrayList<>(channels);
        all.add(channel);
        return with(all, movedMicros);
    }

    /** Without a channel that goes its own way from now on; it may leave none. */
    Outage without(String alarmId) {
        return with(
                channels.stream().filter(each -> !each.alarmId().equals(alarmId)).toList(),
                movedMicros);
    }

    /** After a change of the alarm of one of its channels. What is put aside goes its own way. */
    Outage after(AlarmChange change) {
        String id = change.alarmId();
        if (change.to().isHeld() || over && change.to() == AlarmState.NORMAL) {
            return without(id);
        }
        return with(
                channels.stream()
                        .map(each -> each.alarmId().equals(id) ? each.after(change) : each)
                        .toList(),
                change.event() == AlarmEvent.ACKNOWLEDGED ? movedMicros : change.atMicros());
    }

    /** It was told which are read again. Who is still silent, or unacknowledged, is left. */
    Outage newsTold() {
        boolean all = isAllBack();
        return new Outage(
                channels.stream().filter(each -> all ? !each.isOver() : each.isAway()).toList(),
                calls,
                news + 1,
                List.of(),
                movedMicros,
                all);
    }

    private Outage with(List<SilentChannel> now, long moved) {
        return new Outage(now, calls, news, untold, moved, over);
    }
}
