package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import leat.alarm.AlarmChange;
import leat.config.RouteSettings;
import leat.config.Site;

/**
 * Which messages a change of an alarm owes to which routes. A pure function of the change, the
 * settings and what was told before; its answer is to be committed together with the change.
 * Immutable.
 */
public final class Dispatch {

    /**
     * Whether anything of this occurrence of an alarm was ever owed to a route, delivered or not.
     * Asked before the change is committed: it must know what was owed since the last commit, too.
     */
    @FunctionalInterface
    public interface Told {
        boolean told(String route, String alarmId);
    }

    private final List<RouteSettings> routes;
    private final Wording wording;
    private final Undelivered undelivered;

    public Dispatch(Site site) {
        this.routes = requireNonNull(site, "site").routes();
        this.wording = new Wording(site);
        this.undelivered = new Undelivered(site);
    }

    /**
     * One message for each route whose grade the alarm reaches. Who was told that an alarm came is
     * also told when it eases, returns or is acknowledged, at whatever grade. While an alarm is
     * held back nothing is owed; that a hold began or ended only to those who were told of the
     * alarm, unless it is active as the hold ends: then it is a call like any other. A route that
     * is called only when nobody answers gets its first call from {@link Reminders}.
     */
    public List<Addressed> owed(String machine, AlarmChange change, Told told) {
        Optional<Message> message = Optional.empty();
        List<Addressed> owed = new ArrayList<>();
        if (change.isSilent()) {
            return owed;
        }
        boolean byGrade = change.isCall() || !change.isAboutHold();
        for (RouteSettings route : routes) {
            boolean reaches =
                    byGrade
                            && route.scope().policy().escalateAfter().isEmpty()
                            && change.finding().grade().isAtLeast(route.scope().atLeast());
            if (route.scope().carries(machine)
                    && (reaches || told.told(route.name(), change.alarmId()))) {
                message = Optional.of(message.orElseGet(() -> wording.message(machine, change)));
                owed.add(new Addressed(route.name(), message.get()));
            }
        }
        return List.copyOf(owed);
    }

    /**
     * The notices that the other routes are owed when one has given messages up: one per machine,
     * to each route that carries that machine and the gravest grade among them; what is about more
     * than one machine concerns every route. A notice that is given up itself causes no further
     * one.
     *
     * @param messages of one route, in the order of their numbers
     * @param reason why, in plain words
     * @param atMicros now, microseconds UTC
     */
    public List<Addressed> undelivered(List<Owed> messages, String reason, long atMicros) {
        Map<String, List<Owed>> byMachine =
                messages.stream()
                        .filter(owed -> owed.message().kind() != Message.Kind.NOTICE)
                        .collect(
                                Collectors.groupingBy(
                                        owed -> owed.message().machine(),
                                        LinkedHashMap::new,
                                        Collectors.toList()));
        List<Addressed> owed = new ArrayList<>();
        byMachine.forEach(
                (machine, lost) -> {
                    Message notice = undelivered.notice(lost, reason, atMicros);
                    routes.stream()
                            .filter(route -> !route.name().equals(lost.get(0).route()))
                            .filter(
                                    route ->
                                            machine.equals(Message.EVERY_MACHINE)
                                                    || route.scope().carries(machine))
                            .filter(route -> notice.grade().isAtLeast(route.scope().atLeast()))
                            .forEach(route -> owed.add(new Addressed(route.name(), notice)));
                });
        return List.copyOf(owed);
    }
}
