package leat.deliver;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.config.Site;
import leat.rule.Grade;
import leat.wire.State;

/** Gathers what the routes that want it once a day are owed of ADVISORY alarms. Thread-confined. */
final class Digests {

    /**
     * What one message is to stand for.
     *
     * @param id the message's id
     * @param route name of the route
     * @param day on which it falls due, on the site's calendar, days since 1970-01-01
     * @param changes in their order
     */
    record Gathered(String id, String route, long day, List<Changed> changes) {
        Gathered {
            changes = List.copyOf(changes);
        }

        LocalDate date() {
            return LocalDate.ofEpochDay(day);
        }

        Gathered and(Changed changed) {
            List<Changed> all = new ArrayList<>(changes);
            all.add(changed);
            return new Gathered(id, route, day, all);
        }
    }

    private final SiteCalendar calendar;
    private final StandInIds ids = new StandInIds();
    private final Map<String, LocalTime> times = new HashMap<>();
    private final List<Gathered> waiting = new ArrayList<>();

    Digests(Site site) {
        calendar = new SiteCalendar(site.zone());
        site.routes()
                .forEach(
                        route ->
                                route.scope()
                                        .policy()
                                        .advisories()
                                        .ifPresent(time -> times.put(route.name(), time)));
    }

    /**
     * Takes a change of an ADVISORY alarm in, where the route wants it once a day.
     *
     * @return the id of the message that is to stand for it; empty when it is to be told by itself
     */
    Optional<String> gather(String route, Changed changed) {
        Optional<LocalTime> time = Optional.ofNullable(times.get(route));
        if (time.isEmpty() || changed.grade().isAtLeast(Grade.WARNING)) {
            return Optional.empty();
        }
        LocalDate date = calendar.nextDate(changed.change().atMicros(), time.get());
        for (int i = 0; i < waiting.size(); i++) {
            Gathered gathered = waiting.get(i);
            if (gathered.route().equals(route) && gathered.date().equals(date)) {
                waiting.set(i, gathered.and(changed));
                return Optional.of(gathered.id());
            }
        }
        String id = ids.unused(route, date.toEpochDay(), "digest/" + date + "/" + route);
        waiting.add(new Gathered(id, route, date.toEpochDay(), List.of(changed)));
        return Optional.of(id);
    }

    /** What has fallen due; each is handed out once. */
    List<Gathered> due(long nowMicros) {
        List<Gathered> due = waiting.stream().filter(each -> isDue(each, nowMicros)).toList();
        due.forEach(each -> ids.use(each.route(), each.day()));
        waiting.removeAll(due);
        return due;
    }

    /**
     * What lies beyond the next time is due, too: the clock was set back or the setting changed. So
     * is what was gathered for a route that is told one by one by now.
     */
    private boolean isDue(Gathered each, long nowMicros) {
        Optional<LocalTime> time = Optional.ofNullable(times.get(each.route()));
        return time.isEmpty()
                || nowMicros >= calendar.dueMicros(each.date(), time.get())
                || each.date().isAfter(calendar.nextDate(nowMicros, time.get()));
    }

    /** What an earlier leat has used is not known. */
    void begin(long nowMicros) {
        ids.forget(
                calendar.dateAt(nowMicros).plusDays(1).toEpochDay(),
                Math.floorDiv(nowMicros, 1_000_000));
    }

    /**
     * @param routes names of those that there are: what waits for another will never be told
     */
    void keep(State state, Set<String> routes) {
        state.part("ids", ids::keep);
        List<Gathered> kept = state.keep("waiting", Gathered.class, List.copyOf(waiting));
        waiting.clear();
        kept.stream().filter(each -> routes.contains(each.route())).forEach(waiting::add);
    }
}
