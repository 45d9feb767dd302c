package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import leat.config.MachineSettings;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.wire.State;

/**
 * Which routes are to be told how the day went. One whose time went by while leat was down is told
 * late on the same day. Thread-confined.
 */
public final class DayReports {

    /**
     * A report that is due and waits for its figures. Immutable.
     *
     * @param route name of the route
     * @param date of the site's calendar
     * @param machines whose figures it needs
     * @param fromMicros begin of the day that it is about, microseconds UTC
     * @param toMicros its end, not in it
     */
    public record Report(
            String route, LocalDate date, List<String> machines, long fromMicros, long toMicros) {
        public Report {
            requireNonNull(route, "route");
            requireNonNull(date, "date");
            machines = List.copyOf(machines);
        }

        String id() {
            return Day.EVENT + "/" + date;
        }
    }

    private record Told(String route, long day) {}

    private final Site site;
    private final SiteCalendar calendar;
    private final List<Told> told = new ArrayList<>();

    DayReports(Site site) {
        this.site = site;
        calendar = new SiteCalendar(site.zone());
    }

    List<Report> asks(long nowMicros) {
        List<Report> due = new ArrayList<>();
        LocalDate today = calendar.dateAt(nowMicros);
        for (RouteSettings route : site.routes()) {
            route.scope()
                    .policy()
                    .allIsWell()
                    .filter(time -> nowMicros >= calendar.dueMicros(today, time))
                    .filter(time -> !told.contains(new Told(route.name(), today.toEpochDay())))
                    .ifPresent(time -> due.add(report(route, today, time)));
        }
        return due;
    }

    private Report report(RouteSettings route, LocalDate today, LocalTime time) {
        return new Report(
                route.name(),
                today,
                site.machines().stream()
                        .map(MachineSettings::name)
                        .filter(route.scope()::carries)
                        .toList(),
                calendar.dueMicros(today.minusDays(1), time),
                calendar.dueMicros(today, time));
    }

    /** It has its figures. */
    void tell(Report report) {
        told.removeIf(each -> each.route().equals(report.route()));
        told.add(new Told(report.route(), report.date().toEpochDay()));
    }

    void keep(State state) {
        List<Told> kept = state.keep("told", Told.class, List.copyOf(told));
        told.clear();
        told.addAll(kept);
    }
}
