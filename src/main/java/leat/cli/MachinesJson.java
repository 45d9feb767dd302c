package leat.cli;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import leat.json.IfThere;
import leat.json.Inline;
import leat.json.Published;
import leat.live.BoostNow;
import leat.live.DaemonNow;
import leat.live.GaugeNow;
import leat.live.LimitNow;
import leat.live.MachineNow;
import leat.live.PhaseNow;
import leat.live.SiteNow;
import leat.live.StartNow;
import leat.phase.Phase;
import leat.report.Episodes;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.store.Run;
import leat.store.StoredStartup;

/** The machines as they are now, for programs. */
final class MachinesJson {

    private MachinesJson() {}

    static Told of(SiteNow now) {
        return new Told(
                now.atMicros(),
                Leat.of(now.daemon()),
                now.machines().stream().map(Machine::of).toList());
    }

    /** The document. */
    @Published("leat.machines/1")
    record Told(long atMicros, Leat leat, List<Machine> machines) {}

    /** Whether leat runs. */
    record Leat(
            DaemonNow.State state,
            @IfThere OptionalLong storedMicros,
            @IfThere OptionalLong startedMicros,
            @IfThere OptionalLong endedMicros) {

        static Leat of(DaemonNow daemon) {
            Optional<Run> run = daemon.run();
            return new Leat(
                    daemon.state(),
                    daemon.storedMicros(),
                    run.map(r -> OptionalLong.of(r.startedMicros())).orElse(OptionalLong.empty()),
                    run.map(Run::endedMicros).orElse(OptionalLong.empty()));
        }
    }

    /** One machine. */
    record Machine(
            String machine,
            Optional<Phase> phase,
            @IfThere OptionalLong phaseSinceMicros,
            @IfThere OptionalLong runningSinceMicros,
            @IfThere OptionalLong readMicros,
            List<Gauge> gauges,
            @IfThere OptionalDouble boostRatio,
            Optional<Start> lastStart,
            List<AlarmsCommand.Alarm> alarms,
            List<AlarmsCommand.Alarm> aside,
            boolean inService) {

        static Machine of(MachineNow now) {
            Optional<PhaseNow> phase = now.phase();
            return new Machine(
                    now.name(),
                    phase.map(PhaseNow::phase),
                    phase.map(p -> OptionalLong.of(p.sinceMicros())).orElse(OptionalLong.empty()),
                    phase.map(PhaseNow::runningMicros).orElse(OptionalLong.empty()),
                    now.readMicros(),
                    now.gauges().stream().map(Gauge::of).toList(),
                    now.boost()
                            .map(BoostNow::ratio)
                            .map(OptionalDouble::of)
                            .orElse(OptionalDouble.empty()),
                    now.lastStart().map(StartNow::startup).map(Start::of),
                    now.alarms().stream().map(a -> AlarmsCommand.Alarm.of(a.alarm())).toList(),
                    now.aside().stream().map(a -> AlarmsCommand.Alarm.of(a.alarm())).toList(),
                    now.service().isPresent());
        }
    }

    /** One gauge or contact. */
    record Gauge(
            Channel channel,
            GaugeNow.Showing showing,
            @IfThere OptionalDouble value,
            @IfThere OptionalLong readMicros,
            Optional<Quality> quality,
            String lost,
            List<Applies> limits) {

        static Gauge of(GaugeNow now) {
            return new Gauge(
                    now.channel(),
                    now.showing(),
                    now.value(),
                    now.last()
                            .map(last -> OptionalLong.of(last.atMicros()))
                            .orElse(OptionalLong.empty()),
                    now.last().map(Reading::quality),
                    now.lostReason(),
                    now.limits().stream().map(Applies::of).toList());
        }
    }

    /** A limit that applies now. */
    record Applies(String limit, Grade grade, Finding.Sense sense, double psi) {

        static Applies of(LimitNow now) {
            return new Applies(now.limit().key(), now.grade(), now.sense(), now.value());
        }
    }

    /** The start that was measured last. */
    record Start(String number, @Inline Episodes.Start start) {

        static Start of(StoredStartup stored) {
            return new Start(
                    stored.name(),
                    Episodes.Start.of(
                            stored.machine(), stored.startup(), stored.verdict(), stored.run()));
        }
    }
}
