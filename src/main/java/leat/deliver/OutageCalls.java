package leat.deliver;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.RouteSettings;

/**
 * Tells of channels that fell silent together: on each route that folds one call, and one piece of
 * news when they are read again. Where each alarm has its state nothing waits. Thread-confined.
 */
final class OutageCalls {

    /** What else the annunciator does with a message. */
    interface Telling {
        /** An alarm is told by itself. */
        StandingAlarm alone(
                Changed call,
                RouteSettings route,
                StandingAlarm alarm,
                Consumer<Notification> into);

        Notification unlessTooMany(Notification message, RouteSettings route);
    }

    private final List<RouteSettings> routes;
    private final StandingAlarms standing;
    private final Outages outages;
    private final Telling telling;

    OutageCalls(
            List<RouteSettings> routes, StandingAlarms standing, Outages outages, Telling telling) {
        this.routes = routes.stream().filter(each -> each.scope().policy().folds()).toList();
        this.standing = standing;
        this.outages = outages;
        this.telling = telling;
    }

    void passed(long nowMicros, Consumer<Notification> into) {
        List<Changed> together = new ArrayList<>();
        for (Changed call : outages.due(nowMicros)) {
            outages.leave(call.alarmId());
            if (isStanding(call)) {
                together.add(call);
            }
        }
        List<Changed> fresh = new ArrayList<>();
        for (Changed call : together) {
            Optional<Outage> known = outages.explains(call);
            if (known.isPresent()) {
                join(known.get(), call, nowMicros, into);
            } else {
                fresh.add(call);
            }
        }
        if (fresh.size() == 1) {
            alone(fresh.get(0), into);
        } else if (!fresh.isEmpty()) {
            begin(fresh, nowMicros, into);
        }
        outages.readAgain(nowMicros).forEach(outage -> readAgain(outage, nowMicros, into));
    }

    /** Nobody has answered it, and it has not gone, while it waited. */
    private boolean isStanding(Changed call) {
        return standing.of(call.alarmId())
                .filter(alarm -> alarm.latest().to() == AlarmState.UNACKNOWLEDGED)
                .isPresent();
    }

    private StandingAlarm alarm(Changed call) {
        return standing.of(call.alarmId()).orElseThrow();
    }

    private void alone(Changed call, Consumer<Notification> into) {
        for (RouteSettings route : routes) {
            if (isOwed(route, call)) {
                standing.put(telling.alone(call, route, alarm(call), into));
            }
        }
    }

    private boolean isOwed(RouteSettings route, Changed call) {
        return Annunciator.isOwed(route, call, alarm(call));
    }

    /** Another channel of a connection that is known to be away. */
    private void join(Outage outage, Changed call, long nowMicros, Consumer<Notification> into) {
        outages.replace(outage, outage.and(outages.channel(call)));
        for (RouteSettings route : routes) {
            Optional<String> told = outage.call(route.name());
            if (isOwed(route, call) && told.isPresent()) {
                with(told.get(), route, call, nowMicros, into);
            } else if (isOwed(route, call)) {
                standing.put(telling.alone(call, route, alarm(call), into));
            }
        }
    }

    private void with(
            String callId,
            RouteSettings route,
            Changed call,
            long nowMicros,
            Consumer<Notification> into) {
        into.accept(
                new Notification(call.id(), route.name(), nowMicros, call, Optional.of(callId)));
        StandingAlarm alarm = alarm(call);
        standing.put(
                alarm.tells(route.name(), true)
                        .calls(route.name(), StandingAlarm.Call.own(callId, alarm).ofAnother()));
    }

    private void begin(List<Changed> fresh, long nowMicros, Consumer<Notification> into) {
        Outage outage = Outage.of(fresh.stream().map(outages::channel).toList(), nowMicros);
        for (RouteSettings route : routes) {
            List<Changed> owed = fresh.stream().filter(call -> isOwed(route, call)).toList();
            if (owed.size() == 1) {
                standing.put(telling.alone(owed.get(0), route, alarm(owed.get(0)), into));
            } else if (!owed.isEmpty() && call(route, owed, nowMicros, into)) {
                outage = outage.told(route.name(), owed.get(0).id());
            }
        }
        outages.begin(outage);
    }

    /**
     * One call for all of them.
     *
     * @return whether it is told; false when it is one message too many, and each of them with it
     */
    private boolean call(
            RouteSettings route, List<Changed> owed, long nowMicros, Consumer<Notification> into) {
        Changed lead = owed.get(0);
        OutageCall about = about(lead, owed, Optional.empty());
        Notification message =
                telling.unlessTooMany(
                        new Notification(about.id(), route.name(), nowMicros, about), route);
        into.accept(message);
        StandingAlarm told = alarm(lead).tells(route.name(), true);
        List<Changed> others = owed.subList(1, owed.size());
        if (message.foldedInto().isPresent()) {
            standing.put(told.isAmongOthers(route.name()));
            others.forEach(each -> standing.put(telling.alone(each, route, alarm(each), into)));
            return false;
        }
        standing.put(told.calls(route.name(), StandingAlarm.Call.own(message.id(), told)));
        others.forEach(each -> with(message.id(), route, each, nowMicros, into));
        return true;
    }

    private OutageCall about(Changed lead, List<Changed> alarms, Optional<Again> again) {
        List<SilentChannel> channels = alarms.stream().map(outages::channel).toList();
        return new OutageCall(lead, channels, outages.whole(channels), again);
    }

    /**
     * The message that stands for the news of an alarm's change: all are told to be read again at
     * once, and one acknowledgement is enough.
     */
    Optional<String> standsFor(RouteSettings route, Changed changed) {
        Optional<Outage> found =
                outages.of(changed.alarmId()).filter(each -> each.call(route.name()).isPresent());
        if (found.isEmpty()) {
            return Optional.empty();
        }
        Outage outage = found.get();
        if (changed.change().event() == AlarmEvent.RETURNED && !outage.over()) {
            outages.replace(outage, outage.waitsToTell(route.name(), changed));
            return Optional.of(outage.newsId(route.name()));
        }
        return changed.change().event() == AlarmEvent.ACKNOWLEDGED && outage.isAnswered()
                ? outage.call(route.name())
                : Optional.empty();
    }

    private void readAgain(Outage outage, long nowMicros, Consumer<Notification> into) {
        for (RouteSettings route : routes) {
            List<Outage.Untold> untold = outage.untoldTo(route.name());
            if (!untold.isEmpty()) {
                String call = outage.call(route.name()).orElseThrow();
                OutageOver over =
                        new OutageOver(
                                call.substring(0, call.lastIndexOf('/')),
                                untold.stream().map(Outage.Untold::id).toList(),
                                untold.stream().map(Outage.Untold::channel).toList(),
                                outage.carriedBy(route.scope()).stream()
                                        .filter(SilentChannel::isAway)
                                        .toList());
                into.accept(
                        new Notification(
                                outage.newsId(route.name()), route.name(), nowMicros, over));
            }
        }
        outages.replace(outage, outage.newsTold());
    }

    /** Whether no call is due about an alarm, because one about its outage is or was. */
    boolean isStoodFor(StandingAlarm alarm, RouteSettings route) {
        return routes.contains(route) && outages.standsFor(alarm, route);
    }

    /** The call that is due about an alarm tells of all that fell silent with it. */
    Optional<LaterCall> again(StandingAlarm alarm, RouteSettings route, Again again) {
        List<Changed> silent =
                silentWith(alarm, route).stream().map(StandingAlarm::changed).toList();
        return silent.size() < 2
                ? Optional.empty()
                : Optional.of(about(alarm.changed(), silent, Optional.of(again)));
    }

    /** The call again about an alarm stands for all that fell silent with it. */
    void toldAgain(StandingAlarm alarm, RouteSettings route, Again again, Notification message) {
        List<StandingAlarm> silent = silentWith(alarm, route);
        for (StandingAlarm each : silent) {
            standing.put(each.callsAgain(route.name(), again.times()));
        }
        if (silent.size() > 1 && message.foldedInto().isEmpty()) {
            outages.of(alarm.latest().alarmId())
                    .filter(outage -> outage.call(route.name()).isEmpty())
                    .ifPresent(
                            outage ->
                                    outages.replace(
                                            outage, outage.told(route.name(), message.id())));
        }
    }

    private List<StandingAlarm> silentWith(StandingAlarm alarm, RouteSettings route) {
        if (!routes.contains(route)) {
            return List.of();
        }
        return outages.of(alarm.latest().alarmId()).stream()
                .flatMap(outage -> outage.carriedBy(route.scope()).stream())
                .filter(SilentChannel::isAway)
                .flatMap(channel -> standing.of(channel.alarmId()).stream())
                .toList();
    }
}
