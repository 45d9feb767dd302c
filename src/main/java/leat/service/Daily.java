package leat.service;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import leat.config.MachineSettings;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.deliver.Addressed;
import leat.deliver.DailyReport;
import leat.deliver.MachineDay;
import leat.deliver.SiteCalendar;

/**
 * Says each day how it goes, on the routes that want it. After a restart the report of the day is
 * made again, and the outbox, which knows its id, does not take it twice; one whose time went by
 * while leat was down comes late on the same day. Confined to the engine thread.
 */
final class Daily {

    /** Asks how a machine did. */
    @FunctionalInterface
    interface Days {
        /** Between two times, microseconds UTC; the second is not in it. */
        MachineDay day(String machine, long fromMicros, long toMicros);
    }

    private final Site site;
    private final SiteCalendar calendar;
    private final DailyReport report;
    private final Map<String, LocalDate> told = new HashMap<>();

    Daily(Site site) {
        this.site = site;
        calendar = new SiteCalendar(site.zone());
        report = new DailyReport(site);
    }

    /** The reports that have fallen due, each once. */
    List<Addressed> due(long nowMicros, Days days) {
        List<Addressed> due = new ArrayList<>();
        LocalDate today = calendar.dateAt(nowMicros);
        for (RouteSettings route : site.routes()) {
            route.scope()
                    .policy()
                    .allIsWell()
                    .filter(time -> nowMicros >= calendar.dueMicros(today, time))
                    .filter(time -> !today.equals(told.get(route.name())))
                    .ifPresent(time -> due.add(report(route, today, time, nowMicros, days)));
        }
        due.forEach(each -> told.put(each.route(), today));
        return due;
    }

    private Addressed report(
            RouteSettings route, LocalDate today, LocalTime time, long nowMicros, Days days) {
        long from = calendar.dueMicros(today.minusDays(1), time);
        long to = calendar.dueMicros(today, time);
        List<MachineDay> lines =
                site.machines().stream()
                        .map(MachineSettings::name)
                        .filter(route.scope()::carries)
                        .map(machine -> days.day(machine, from, to))
                        .toList();
        return new Addressed(route.name(), report.message(route.name(), today, lines, nowMicros));
    }
}
