package leat.deliver;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.rule.Grade;
import leat.store.Message;
import leat.wire.State;
import leat.wire.StateBytes;

/**
 * Who is told when: a fold like the watch, one for a site. Occasions go in, the messages that
 * routes are owed come out, as facts. It has no clock, store, thread or words; the same occasions
 * give the same messages. Its state can be written down after any occasion and taken up again.
 *
 * <p>What the messages of a commit told of, the messages, and the state belong into one commit.
 * Thread-confined.
 */
public final class Annunciator {

    private static final int FORMAT = 1;

    /** The same order before and after a restart. */
    private static final Comparator<StandingAlarm> LONGEST_FIRST =
            Comparator.<StandingAlarm>comparingLong(alarm -> alarm.unanswered().get().atMicros())
                    .thenComparing(alarm -> alarm.latest().alarmId());

    private final List<RouteSettings> routes;
    private final Reminders reminders;
    private final Digests digests;
    private final Flood flood = new Flood();
    private final DayReports reports;

    private final StandingAlarms standing = new StandingAlarms();
    private final Outages outages;
    private final OutageCalls outageCalls;

    /** Knows of no alarm. */
    public Annunciator(Site site) {
        routes = site.routes();
        reminders = new Reminders(site.zone());
        digests = new Digests(site);
        reports = new DayReports(site);
        outages = new Outages(new Wires(site));
        outageCalls = new OutageCalls(routes, standing, outages, new ToldAlone());
    }

    /** Hands out what is owed because of an occasion, in its order. */
    public void feed(Occasion occasion, Consumer<Notification> into) {
        occasion.befall(this, into);
    }

    /** The reports of the day that are due and wait for {@link Occasion.DayCounted figures}. */
    public List<DayReports.Report> asks(long nowMicros) {
        return reports.asks(nowMicros);
    }

    /** The latest change of each alarm that stands. */
    public List<Changed> standing() {
        return standing.all().stream().map(StandingAlarm::changed).toList();
    }

    /** Its state, to be taken up from later. */
    public byte[] snapshot() {
        return StateBytes.of(FORMAT, this::keep);
    }

    /**
     * Goes on from a state. What waited to be told to routes that the site no longer has is left
     * out.
     *
     * @throws IllegalArgumentException when the state is damaged or of another format
     */
    public static Annunciator restore(Site site, byte[] state) {
        Annunciator restored = new Annunciator(site);
        StateBytes.into(FORMAT, state, restored::keep);
        return restored;
    }

    private void keep(State state) {
        Set<String> names = routes.stream().map(RouteSettings::name).collect(Collectors.toSet());
        standing.keep(state);
        state.part("digests", part -> digests.keep(part, names));
        state.part("flood", part -> flood.keep(part, names));
        state.part("reports", reports::keep);
        state.part("outages", outages::keep);
    }

    void changed(Changed changed, Consumer<Notification> into) {
        StandingAlarm alarm = standing.after(changed);
        Optional<StandingAlarm> leader = standing.leader(alarm);
        if (leader.isPresent()) {
            alarm = alarm.under(StandingAlarm.Under.of(leader.get()));
        }
        Changed told = told(changed, alarm);
        boolean waits = leader.isEmpty() && outages.takes(alarm);
        for (RouteSettings route : routes) {
            if (isOwed(route, changed, alarm) && !(waits && waits(route, changed, alarm))) {
                alarm = tell(told, route, alarm, leader, into);
            }
        }
        outages.changed(alarm);
        standing.changed(alarm);
    }

    /** A call may be one with others; until it is made nobody knows of what else happens. */
    private static boolean waits(RouteSettings route, Changed changed, StandingAlarm alarm) {
        return route.scope().policy().folds()
                && (changed.kind() == Message.Purpose.CALL || !alarm.wasTold(route.name()));
    }

    /** An alarm of a silent channel that no other fell silent with. */
    private final class ToldAlone implements OutageCalls.Telling {
        @Override
        public StandingAlarm alone(
                Changed call,
                RouteSettings route,
                StandingAlarm alarm,
                Consumer<Notification> into) {
            return tell(call, route, alarm, Optional.empty(), into);
        }

        @Override
        public Notification unlessTooMany(Notification message, RouteSettings route) {
            return Annunciator.this.unlessTooMany(message, route);
        }
    }

    /** What is known of the cause stands in each message while the alarm is there. */
    private static Changed told(Changed changed, StandingAlarm alarm) {
        return new Changed(
                changed.machine(),
                changed.change(),
                alarm.why().filter(why -> changed.change().notes().own().isActive()),
                changed.number());
    }

    private StandingAlarm tell(
            Changed changed,
            RouteSettings route,
            StandingAlarm alarm,
            Optional<StandingAlarm> leader,
            Consumer<Notification> into) {
        Optional<String> digest =
                alarm.toldTo(route.name()).atOnce()
                        ? Optional.empty()
                        : digests.gather(route.name(), changed);
        Optional<StandingAlarm.Call> call =
                digest.isPresent()
                        ? Optional.empty()
                        : leader.flatMap(its -> callOf(its, alarm, route));
        Notification message =
                new Notification(
                        changed.id(),
                        route.name(),
                        changed.change().atMicros(),
                        changed,
                        digest.or(() -> call.map(StandingAlarm.Call::id))
                                .or(() -> outageCalls.standsFor(route, changed)));
        Notification told = message;
        if (message.foldedInto().isEmpty()) {
            told =
                    changed.kind() == Message.Purpose.CALL
                            ? unlessTooMany(message, route)
                            : withItsCall(message, route, alarm);
        }
        into.accept(told);
        StandingAlarm after = alarm.tells(route.name(), digest.isEmpty());
        if (changed.kind() != Message.Purpose.CALL) {
            return after;
        }
        return call.isPresent()
                ? after.calls(route.name(), call.get().ofAnother())
                : called(after, told);
    }

    /** Whoever finds it only among others was not called for it. */
    private static StandingAlarm called(StandingAlarm alarm, Notification message) {
        return message.foldedInto().isEmpty()
                ? alarm.calls(message.route(), StandingAlarm.Call.own(message.id(), alarm))
                : alarm.isAmongOthers(message.route());
    }

    /** The message that told a route of an alarm, where it can stand for another. */
    private static Optional<StandingAlarm.Call> callOf(
            StandingAlarm leader, StandingAlarm alarm, RouteSettings route) {
        return route.scope().policy().folds()
                ? leader.toldTo(route.name()).call().filter(call -> OneCause.covers(call, alarm))
                : Optional.empty();
    }

    /**
     * A route is owed what reaches its grade. Who was told that an alarm came is also told when it
     * eases, returns or is acknowledged, at whatever grade. While an alarm is held back nothing is
     * owed; that a hold began or ended only to those who were told of the alarm, unless it is
     * active as the hold ends: then it is a call like any other. A route that is called only when
     * nobody answers gets its first call from {@link Reminders}.
     */
    static boolean isOwed(RouteSettings route, Changed changed, StandingAlarm alarm) {
        if (changed.change().isSilent() || !route.scope().carries(changed.machine())) {
            return false;
        }
        boolean byGrade = changed.change().isCall() || !changed.change().isAboutHold();
        boolean reaches =
                byGrade
                        && route.scope().policy().escalateAfter().isEmpty()
                        && changed.grade().isAtLeast(route.scope().atLeast());
        return reaches || alarm.wasTold(route.name());
    }

    private Notification unlessTooMany(Notification call, RouteSettings route) {
        return call.into(
                route.scope().policy().atMost().stream()
                        .mapToObj(atMost -> flood.foldsInto(call, atMost))
                        .flatMap(Optional::stream)
                        .findFirst());
    }

    /** News of what the route finds among what was too much belongs there too. */
    private Notification withItsCall(Notification news, RouteSettings route, StandingAlarm alarm) {
        boolean wasCalled = alarm.toldTo(route.name()).call().isPresent();
        return wasCalled
                        || news.about().grade() == Grade.CRITICAL
                        || !route.scope().policy().folds()
                ? news
                : news.into(flood.foldsInto(news));
    }

    void passed(long nowMicros, Consumer<Notification> into) {
        for (Digests.Gathered gathered : digests.due(nowMicros)) {
            into.accept(
                    new Notification(gathered.id(), gathered.route(), nowMicros, digest(gathered)));
        }
        outageCalls.passed(nowMicros, into);
        flood.over(nowMicros).forEach(into);
        callAlone(nowMicros, into);
        callAgain(nowMicros, into);
    }

    void clockSet(String machine, long byMicros) {
        standing.clockSet(machine, byMicros);
    }

    void runChanged(String machine, OptionalLong sinceMicros) {
        standing.runChanged(machine, sinceMicros);
    }

    private Digest digest(Digests.Gathered gathered) {
        Set<String> news =
                gathered.changes().stream().map(Changed::alarmId).collect(Collectors.toSet());
        RouteScope scope =
                routes.stream()
                        .filter(route -> route.name().equals(gathered.route()))
                        .map(RouteSettings::scope)
                        .findFirst()
                        .orElseThrow();
        long before =
                standing.all().stream()
                        .filter(alarm -> scope.carries(alarm.machine()))
                        .filter(StandingAlarm::isActiveAdvisory)
                        .filter(alarm -> !news.contains(alarm.latest().alarmId()))
                        .count();
        return Digest.of(
                gathered.date(),
                gathered.changes(),
                id -> standing.of(id).map(StandingAlarm::latest),
                before);
    }

    /** An alarm stands, and the one whose call stood for it has gone or is looked after no more. */
    private void callAlone(long nowMicros, Consumer<Notification> into) {
        for (StandingAlarm alarm : standing.left(nowMicros)) {
            Optional<StandingAlarm> heir = OneCause.heir(alarm, standing.all());
            standing.put(
                    heir.isPresent()
                            ? alarm.under(StandingAlarm.Under.of(heir.get()))
                            : calledAlone(alarm, nowMicros, into));
        }
    }

    private StandingAlarm calledAlone(
            StandingAlarm alarm, long nowMicros, Consumer<Notification> into) {
        Alone alone = new Alone(alarm.machine(), alarm.latest(), alarm.why(), alarm.number());
        StandingAlarm called = alarm.alone(nowMicros);
        for (RouteSettings route : routes) {
            if (alarm.isToldWithAnother(route.name())
                    && route.scope().carries(alarm.machine())
                    && alone.grade().isAtLeast(route.scope().atLeast())) {
                Notification message = later(alone, route, nowMicros);
                into.accept(message);
                called = called(called, message);
            }
        }
        return called;
    }

    private Notification later(LaterCall call, RouteSettings route, long nowMicros) {
        return unlessTooMany(new Notification(call.id(), route.name(), nowMicros, call), route);
    }

    private void callAgain(long nowMicros, Consumer<Notification> into) {
        List<StandingAlarm> unanswered =
                standing.all().stream()
                        .filter(alarm -> alarm.unanswered().isPresent())
                        .sorted(LONGEST_FIRST)
                        .toList();
        for (StandingAlarm alarm : unanswered) {
            for (RouteSettings route : routes) {
                Optional<Again> again =
                        isStoodFor(alarm, route)
                                ? Optional.empty()
                                : reminders.due(now(alarm), route, nowMicros);
                if (again.isPresent()) {
                    callAgain(alarm, route, again.get(), nowMicros, into);
                }
            }
        }
    }

    /** With what was told of it meanwhile. */
    private StandingAlarm now(StandingAlarm alarm) {
        return standing.of(alarm.latest().alarmId()).orElseThrow();
    }

    private void callAgain(
            StandingAlarm alarm,
            RouteSettings route,
            Again again,
            long nowMicros,
            Consumer<Notification> into) {
        LaterCall call = outageCalls.again(alarm, route, again).orElse(again);
        Notification message = later(call, route, nowMicros);
        into.accept(message);
        standing.put(now(alarm).callsAgain(route.name(), again.times()));
        outageCalls.toldAgain(alarm, route, again, message);
    }

    /** Whether the calls of another alarm are its own on this route. */
    private boolean isStoodFor(StandingAlarm alarm, RouteSettings route) {
        return alarm.under().isPresent() && route.scope().policy().folds()
                || outageCalls.isStoodFor(alarm, route);
    }

    /**
     * The other routes are owed a notice when one has given messages up: one per machine, to each
     * route that carries that machine and the gravest grade among them; what is about more than one
     * machine concerns every route. A notice that is given up itself causes no further one.
     */
    void givenUp(Occasion.GivenUp givenUp, Consumer<Notification> into) {
        Map<String, List<Message>> byMachine =
                givenUp.messages().stream()
                        .filter(message -> message.kind() != Message.Purpose.NOTICE)
                        .collect(
                                Collectors.groupingBy(
                                        Message::machine, LinkedHashMap::new, Collectors.toList()));
        byMachine.forEach(
                (machine, lost) -> {
                    Undelivered about = new Undelivered(machine, lost, givenUp.reason());
                    routes.stream()
                            .filter(route -> !route.name().equals(about.route()))
                            .filter(
                                    route ->
                                            machine.equals(Message.EVERY_MACHINE)
                                                    || route.scope().carries(machine))
                            .filter(route -> about.grade().isAtLeast(route.scope().atLeast()))
                            .forEach(
                                    route ->
                                            into.accept(
                                                    new Notification(
                                                            about.id(),
                                                            route.name(),
                                                            givenUp.nowMicros(),
                                                            about)));
                });
    }

    void counted(Occasion.DayCounted counted, Consumer<Notification> into) {
        DayReports.Report report = counted.report();
        reports.tell(report);
        into.accept(
                new Notification(
                        report.id(),
                        report.route(),
                        counted.nowMicros(),
                        new Day(report.date(), counted.days())));
    }

    /** Every route that carries its grade is told, whatever its machines. */
    void storeChanged(Occasion.StoreChanged changed, Consumer<Notification> into) {
        StoreNotice notice = changed.notice();
        routes.stream()
                .filter(route -> notice.grade().isAtLeast(route.scope().atLeast()))
                .map(
                        route ->
                                new Notification(
                                        notice.id(changed.nowMicros()),
                                        route.name(),
                                        changed.nowMicros(),
                                        notice))
                .forEach(into);
    }

    /** Who would have been told by now counts as told, at once and one by one. */
    void stoodBefore(Occasion.StoodBefore before) {
        for (Changed changed : before.history()) {
            StandingAlarm alarm = standing.after(changed);
            for (RouteSettings route : routes) {
                if (isOwed(route, changed, alarm)) {
                    alarm = alarm.tells(route.name(), true);
                    if (changed.kind() == Message.Purpose.CALL) {
                        StandingAlarm.Call call = StandingAlarm.Call.own(changed.id(), alarm);
                        alarm = alarm.calls(route.name(), call);
                    }
                }
            }
            standing.put(alarm);
        }
        digests.begin(before.nowMicros());
        flood.begin(before.nowMicros());
    }
}
