package leat.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Set;
import leat.alarm.ServiceChange;
import leat.config.MachineSettings;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.rule.Finding;
import leat.rule.Limit;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.store.MachineHead;
import leat.store.Said;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.watch.Outcome;

/**
 * What is known of one machine. What the head of its record shows to be as it was is not read
 * again. Thread-confined.
 */
final class MachineView {

    /** A commit a second: what is read now may be seen a little later. */
    private static final long STORED_WITHIN_MICROS = 2_000_000;

    /** From a start to what runs now there are some changes of phase at most. */
    private static final int PHASES = 6;

    private final MachineSettings settings;
    private final List<Ear> ears = new ArrayList<>();
    private Optional<MachineHead> seen = Optional.empty();
    private Optional<PhaseNow> phase = Optional.empty();
    private Optional<Said> lastRise = Optional.empty();
    private Optional<StartNow> lastStart = Optional.empty();
    private Optional<CurveReader> climb = Optional.empty();
    private Optional<ServiceChange> service = Optional.empty();

    MachineView(MachineSettings settings) {
        this.settings = settings;
        Set<Channel> wired = settings.byChannel().keySet();
        wired.forEach(channel -> ears.add(new Ear(settings.name(), channel)));
    }

    /** Reads what has come since it was last looked at. */
    void look(StoreReader reader, MachineHead head) {
        if (seen.filter(head::equals).isPresent()) {
            return;
        }
        if (seen.map(MachineHead::phase).orElse(-1L) != head.phase()) {
            readPhase(reader);
        }
        if (seen.filter(before -> isStartAsIn(before, head)).isEmpty()) {
            readStart(reader, head);
        }
        if (seen.map(MachineHead::service).orElse(-1L) != head.service()) {
            service =
                    reader.newest(Outcome.ServiceChanged.class, name(), 1).stream()
                            .map(said -> ((Outcome.ServiceChanged) said.outcome()).change())
                            .filter(ServiceChange::on)
                            .findFirst();
        }
        ears.forEach(ear -> ear.listen(reader, head.input()));
        followClimb(reader, head);
        seen = Optional.of(head);
    }

    /** Whether its run lasts follows from the phases. */
    private static boolean isStartAsIn(MachineHead before, MachineHead head) {
        return before.start() == head.start()
                && before.run() == head.run()
                && before.phase() == head.phase();
    }

    private String name() {
        return settings.name();
    }

    private void readPhase(StoreReader reader) {
        List<Said> changes = reader.newest(Outcome.PhaseChanged.class, name(), PHASES);
        phase =
                changes.isEmpty()
                        ? Optional.empty()
                        : Optional.of(
                                PhaseNow.of(changes.stream().map(MachineView::change).toList()));
        lastRise = changes.stream().filter(said -> change(said).to() == Phase.RISE).findFirst();
    }

    private static PhaseChange change(Said said) {
        return ((Outcome.PhaseChanged) said.outcome()).change();
    }

    private void readStart(StoreReader reader, MachineHead head) {
        Optional<StoredStartup> latest = reader.latestStartup(name());
        lastStart =
                latest.map(
                        startup ->
                                new StartNow(
                                        startup,
                                        lastStart
                                                .filter(
                                                        known ->
                                                                known.startup().seq()
                                                                        == startup.seq())
                                                .map(StartNow::curve)
                                                .orElseGet(
                                                        () -> CurveReader.curve(reader, startup))));
    }

    private void followClimb(StoreReader reader, MachineHead head) {
        Optional<Long> began =
                lastRise.filter(rise -> isClimbing(rise, head)).map(r -> r.outcome().atMicros());
        if (!began.equals(climb.map(CurveReader::startedMicros))) {
            climb = began.map(at -> CurveReader.growing(name(), at));
        }
        climb.ifPresent(curve -> curve.read(reader, head.input()));
    }

    /** It has begun after the start that was measured last, and has not come to an end. */
    private boolean isClimbing(Said rise, MachineHead head) {
        return phase.filter(now -> now.phase().isRunning()).isPresent()
                && rise.seq() > head.start();
    }

    /**
     * @param alarms its own that are not back to normal
     */
    MachineNow now(long nowMicros, List<AlarmNow> alarms) {
        long oldest =
                nowMicros - settings.limits().micros(Limit.SIGNAL_MISSING) - STORED_WITHIN_MICROS;
        Optional<LimitsNow> limits =
                phase.map(now -> new LimitsNow(settings.limits(), now, nowMicros));
        boolean isLevelLow = alarms.stream().anyMatch(MachineView::isOfLowLevel);
        List<GaugeNow> gauges =
                ears.stream()
                        .map(
                                ear ->
                                        isLevelLow && ear.channel() == Channel.FILTERED
                                                ? gauge(ear, oldest, Optional.empty())
                                                : gauge(ear, oldest, limits))
                        .toList();
        return new MachineNow(
                name(),
                phase,
                gauges,
                readMicros(),
                settings.limits().get(Limit.LEVEL_SET),
                boost(gauges, limits),
                lastStart,
                climb.map(CurveReader::curve),
                alarms.stream().filter(each -> each.alarm().isActive()).toList(),
                alarms.stream().filter(each -> !each.alarm().isActive()).toList(),
                service);
    }

    /**
     * While the boosted level is low that alone is told, and not what is left after the filters.
     */
    private static boolean isOfLowLevel(AlarmNow each) {
        Finding found = each.alarm().change().finding();
        return each.alarm().isActive()
                && found.rule() == Rule.LEVEL_LOW
                && found.channel() == Channel.BOOSTED;
    }

    /** A contact may be told only when it changes: it is as old as the record. */
    private GaugeNow gauge(Ear ear, long oldest, Optional<LimitsNow> limits) {
        boolean isRecordOld = seen.flatMap(MachineView::tick).filter(t -> t >= oldest).isEmpty();
        return ear.gauge(
                ear.channel().isPressure() || isRecordOld ? oldest : Long.MIN_VALUE,
                limits.map(now -> now.of(ear.channel())).orElse(List.of()));
    }

    private static Optional<Long> tick(MachineHead head) {
        OptionalLong tick = head.tickMicros();
        return tick.isPresent() ? Optional.of(tick.getAsLong()) : Optional.empty();
    }

    private OptionalLong readMicros() {
        return ears.stream()
                .filter(ear -> ear.channel().isPressure())
                .flatMap(ear -> ear.last().stream())
                .mapToLong(Reading::atMicros)
                .max();
    }

    private static Optional<BoostNow> boost(List<GaugeNow> gauges, Optional<LimitsNow> limits) {
        OptionalDouble inlet = value(gauges, Channel.INLET);
        OptionalDouble boosted = value(gauges, Channel.BOOSTED);
        if (inlet.isEmpty() || boosted.isEmpty()) {
            return Optional.empty();
        }
        return limits.filter(now -> now.tellsBoost(inlet.getAsDouble()))
                .map(
                        now ->
                                new BoostNow(
                                        boosted.getAsDouble() / inlet.getAsDouble(),
                                        now.ofBoost(boosted.getAsDouble())));
    }

    private static OptionalDouble value(List<GaugeNow> gauges, Channel channel) {
        return gauges.stream()
                .filter(gauge -> gauge.channel() == channel)
                .map(GaugeNow::value)
                .findFirst()
                .orElse(OptionalDouble.empty());
    }
}
