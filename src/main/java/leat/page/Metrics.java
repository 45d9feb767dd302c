package leat.page;

import java.util.Map;
import java.util.function.ToDoubleFunction;
import leat.acquire.SourceHealth;
import leat.deliver.CourierHealth;
import leat.live.GaugeNow;
import leat.live.MachineNow;
import leat.phase.Phase;
import leat.rule.Grade;
import leat.signal.PressureUnit;

/** What leat knows as numbers, for a program that collects them. Pressures are in pascals. */
final class Metrics {

    private static final double PASCALS_PER_KPA = 1_000;
    private static final double MICROS_PER_SECOND = 1e6;

    private final Seen seen;
    private final OpenMetrics out = new OpenMetrics();

    private Metrics(Seen seen) {
        this.seen = seen;
    }

    /**
     * @param version of leat
     * @param callers how the page itself goes
     */
    static String of(Seen seen, String version, Callers callers) {
        Metrics metrics = new Metrics(seen);
        metrics.out.info("leat_build", "Version of leat.").sample(1, "version", version);
        metrics.machines();
        metrics.workings();
        metrics.callers(callers);
        return metrics.out.end();
    }

    /**
     * How the page itself goes.
     *
     * @param listeners streams that are open
     * @param cutOff exchanges that were cut off since the start, because the other side was slow
     * @param refused requests that found no room since the start
     */
    record Callers(int listeners, long cutOff, long refused) {}

    private void machines() {
        out.gauge(
                "leat_pressure_pascals",
                "pascals",
                "Gauge pressure; a channel that shows nothing has no sample.");
        each(
                (machine, gauge) -> {
                    if (gauge.channel().isPressure() && gauge.value().isPresent()) {
                        double pascals =
                                PASCALS_PER_KPA
                                        * PressureUnit.KPA.fromPsi(gauge.value().getAsDouble());
                        out.sample(pascals, labels(machine, gauge));
                    }
                });
        out.gauge("leat_contact_closed", "", "1 while a contact is on.");
        each(
                (machine, gauge) -> {
                    if (!gauge.channel().isPressure() && gauge.value().isPresent()) {
                        out.sample(gauge.value().getAsDouble(), labels(machine, gauge));
                    }
                });
        out.gauge("leat_reading_age_seconds", "seconds", "Since the last reading of a channel.");
        each(
                (machine, gauge) ->
                        gauge.last()
                                .ifPresent(
                                        last ->
                                                out.sample(
                                                        Math.max(
                                                                0,
                                                                (seen.atMicros() - last.atMicros())
                                                                        / MICROS_PER_SECOND),
                                                        labels(machine, gauge))));
        out.gauge("leat_channel_blind", "", "1 while a channel shows nothing of this moment.");
        each(
                (machine, gauge) ->
                        out.sample(
                                gauge.showing() == GaugeNow.Showing.NOW ? 0 : 1,
                                labels(machine, gauge)));
        phases();
        alarms();
    }

    private void phases() {
        out.stateset("leat_machine_phase", "What the feed line of a machine does.");
        for (MachineNow machine : seen.machines()) {
            machine.phase()
                    .ifPresent(
                            now -> {
                                for (Phase phase : Phase.values()) {
                                    out.sample(
                                            phase == now.phase() ? 1 : 0,
                                            "machine",
                                            machine.name(),
                                            "leat_machine_phase",
                                            phase.key());
                                }
                            });
        }
    }

    private void alarms() {
        out.gauge("leat_alarms_standing", "", "Alarms that stand.");
        for (MachineNow machine : seen.machines()) {
            for (Grade grade : Grade.values()) {
                long standing =
                        machine.alarms().stream()
                                .filter(a -> a.alarm().change().finding().grade() == grade)
                                .count();
                out.sample(
                        standing, "machine", machine.name(), "grade", grade.name().toLowerCase());
            }
        }
    }

    private interface Each {
        void gauge(MachineNow machine, GaugeNow gauge);
    }

    private void each(Each each) {
        for (MachineNow machine : seen.machines()) {
            machine.gauges().forEach(gauge -> each.gauge(machine, gauge));
        }
    }

    private static String[] labels(MachineNow machine, GaugeNow gauge) {
        return new String[] {"machine", machine.name(), "channel", gauge.channel().key()};
    }

    private void workings() {
        Workings workings = seen.workings();
        out.gauge("leat_degraded", "", "1 while leat does not see or tell all that it should.")
                .sample(seen.isDegraded() ? 1 : 0);
        out.gauge("leat_store_ok", "", "1 while the database takes what is written.")
                .sample(seen.storeTrouble().isEmpty() ? 1 : 0);
        out.counter("leat_inputs", "Readings and ticks fed.").sample(workings.inputs());
        out.counter("leat_inputs_lost", "Inputs that came too fast.").sample(workings.lost());
        out.counter("leat_engine_faults", "Bugs met by the engine.").sample(workings.faults());
        out.gauge("leat_source_connected", "", "1 while the last exchange with the field worked.");
        sources(source -> source.connected() ? 1 : 0);
        out.counter("leat_source_readings", "Readings delivered by a source.");
        sources(SourceHealth::readings);
        out.counter("leat_source_missed", "Polls skipped, and readings not taken.");
        sources(SourceHealth::missed);
        out.counter("leat_source_faults", "Exchanges with the field that failed.");
        sources(SourceHealth::faults);
        out.counter("leat_route_delivered", "Messages delivered by a route.");
        routes(CourierHealth::delivered);
        out.counter("leat_route_failed", "Attempts to deliver that failed.");
        routes(CourierHealth::failed);
        out.counter("leat_route_given_up", "Messages that are not tried any more.");
        routes(CourierHealth::givenUp);
    }

    private void sources(ToDoubleFunction<SourceHealth> count) {
        for (Map.Entry<String, SourceHealth> source : seen.workings().sources().entrySet()) {
            out.sample(count.applyAsDouble(source.getValue()), "source", source.getKey());
        }
    }

    private void routes(ToDoubleFunction<CourierHealth> count) {
        for (CourierHealth route : seen.workings().routes()) {
            out.sample(count.applyAsDouble(route), "route", route.route());
        }
    }

    private void callers(Callers callers) {
        out.gauge("leat_page_listeners", "", "Browsers that are told what is new.")
                .sample(callers.listeners());
        out.counter("leat_page_cut_off", "Callers cut off for being slow.")
                .sample(callers.cutOff());
        out.counter("leat_page_refused", "Requests that found no room.").sample(callers.refused());
    }
}
