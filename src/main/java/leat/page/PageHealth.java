package leat.page;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.json.IfThere;
import leat.json.Published;
import leat.live.GaugeNow;
import leat.live.MachineNow;
import leat.live.PhaseNow;
import leat.report.Json;
import leat.signal.Keyword;

/** How leat is, for a program that asks. */
final class PageHealth {

    private PageHealth() {}

    /** Whether leat sees and tells all that it should. */
    enum Status {
        OK,
        DEGRADED
    }

    /** The document. */
    @Published("leat.page-health/1")
    record Told(
            Status status,
            List<String> troubles,
            String at,
            long inputs,
            long lost,
            long faults,
            StoreTold store,
            List<MachineTold> machines,
            List<SourceTold> sources,
            List<RouteTold> routes) {}

    /** The database. */
    record StoreTold(boolean ok, @IfThere Optional<String> reason) {}

    /** A machine. */
    record MachineTold(
            String machine, @IfThere Optional<String> phase, int alarms, List<BlindTold> blind) {}

    /** A channel that shows nothing of this moment. */
    record BlindTold(String channel, String why, @IfThere Optional<String> reason) {}

    /** A connection to the field. */
    record SourceTold(
            String source,
            boolean connected,
            long readings,
            long missed,
            long faults,
            @IfThere Optional<String> lastFault) {}

    /** A route. */
    record RouteTold(
            String route,
            boolean ok,
            long delivered,
            long failed,
            long givenUp,
            @IfThere Optional<String> reason) {}

    static String json(Seen seen) {
        Workings workings = seen.workings();
        return Json.print(
                new Told(
                        seen.isDegraded() ? Status.DEGRADED : Status.OK,
                        seen.troubles(),
                        Instant.EPOCH.plus(seen.atMicros(), ChronoUnit.MICROS).toString(),
                        workings.inputs(),
                        workings.lost(),
                        workings.faults(),
                        new StoreTold(seen.storeTrouble().isEmpty(), said(seen.storeTrouble())),
                        seen.machines().stream().map(PageHealth::machine).toList(),
                        workings.sources().entrySet().stream().map(PageHealth::source).toList(),
                        workings.routes().stream()
                                .map(
                                        route ->
                                                new RouteTold(
                                                        route.route(),
                                                        !seen.failing().contains(route.route()),
                                                        route.delivered(),
                                                        route.failed(),
                                                        route.givenUp(),
                                                        said(route.lastReason())))
                                .toList()));
    }

    private static MachineTold machine(MachineNow machine) {
        return new MachineTold(
                machine.name(),
                machine.phase().map(PhaseNow::phase).map(phase -> phase.key()),
                machine.alarms().size(),
                Seen.blind(machine).stream().map(PageHealth::blind).toList());
    }

    private static BlindTold blind(GaugeNow gauge) {
        return new BlindTold(
                gauge.channel().key(),
                gauge.showing().key(),
                switch (gauge.showing()) {
                    case BAD -> gauge.last().map(last -> Keyword.of(last.quality()));
                    case LOST -> said(gauge.lostReason());
                    case NOW, SILENT, NOTHING -> Optional.empty();
                });
    }

    private static SourceTold source(Map.Entry<String, leat.acquire.SourceHealth> source) {
        return new SourceTold(
                source.getKey(),
                source.getValue().connected(),
                source.getValue().readings(),
                source.getValue().missed(),
                source.getValue().faults(),
                said(source.getValue().lastFault()));
    }

    private static Optional<String> said(String words) {
        return Optional.of(words).filter(each -> !each.isEmpty());
    }
}
