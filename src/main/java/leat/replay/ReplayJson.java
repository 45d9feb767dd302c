package leat.replay;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.TreeMap;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.json.IfThere;
import leat.json.Inline;
import leat.json.Published;
import leat.json.WeighedCause;
import leat.phase.PhaseChange;
import leat.report.Episodes;
import leat.report.Json;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.watch.Outcome;
import leat.words.AlarmWords;

/**
 * A replay as one JSON document; {@code config/replay.schema.json} describes it. The same replay
 * gives the same bytes. Immutable.
 *
 * @param configHash the configuration that it was judged under; empty for the defaults
 * @param zeroMicros where the past counts its own seconds: time of second 0, microseconds UTC
 */
public record ReplayJson(Optional<String> configHash, OptionalLong zeroMicros) {

    private static final double MICROS_PER_SECOND = 1e6;

    /** The document. */
    @Published("leat.replay/1")
    record Told(
            String machine,
            long fromMicros,
            long toMicros,
            OptionalLong aboutMicros,
            Optional<String> configHash,
            List<WeighedCause> causes,
            Map<Limit, Double> limitsChanged,
            Fed counts,
            Optional<Episodes.Normal> baseline,
            List<Start> startups,
            Optional<Episodes.Run> runAtEnd,
            List<Episodes.Rest> rests,
            List<Episodes.Steady> steadies,
            List<Alarm> alarms,
            List<Phase> phases,
            List<String> refused) {}

    /** What was fed. */
    record Fed(
            long inputs,
            Map<Channel, Long> readings,
            long uncertain,
            long bad,
            long droppedLate,
            long droppedAhead,
            long wrongClock,
            long gaps,
            double longestGapSeconds) {}

    /** One start. */
    record Start(
            @Inline Episodes.Start start,
            @IfThere OptionalDouble tSeconds,
            List<WeighedCause> causes) {}

    /** One change of the phase. */
    record Phase(
            leat.phase.Phase from,
            leat.phase.Phase to,
            long atMicros,
            String reason,
            @IfThere OptionalDouble tSeconds) {}

    /** One alarm, at its gravest. */
    record Alarm(
            String id,
            Rule rule,
            Channel channel,
            Grade grade,
            long raisedAtMicros,
            @IfThere OptionalDouble tSeconds,
            OptionalLong returnedAtMicros,
            @IfThere OptionalDouble returnedTSeconds,
            OptionalLong acknowledgedAtMicros,
            @IfThere OptionalDouble acknowledgedTSeconds,
            AlarmState state,
            long sinceMicros,
            Finding.Quantity quantity,
            double measured,
            double limit,
            Finding.Sense sense,
            String detail,
            List<GradeThen> grades) {}

    /** A grade and when it became that. */
    record GradeThen(long atMicros, Grade grade) {}

    public String write(Replayed replayed) {
        String machine = replayed.settings().machine();
        return Json.print(
                new Told(
                        machine,
                        replayed.fromMicros(),
                        replayed.toMicros(),
                        about(replayed),
                        configHash,
                        WeighedCause.of(replayed.why()),
                        new TreeMap<>(replayed.settings().limits().changed()),
                        fed(replayed.counts()),
                        replayed.baseline().map(Episodes.Normal::of),
                        replayed.startups().stream().map(each -> start(replayed, each)).toList(),
                        replayed.lasting().map(Episodes.Run::of),
                        replayed.all(Outcome.RestMeasured.class).stream()
                                .map(Outcome.RestMeasured::spell)
                                .map(
                                        spell ->
                                                Episodes.Rest.of(
                                                        machine,
                                                        onOwnAxis(spell.stoppedAtMicros()),
                                                        spell))
                                .toList(),
                        replayed.all(Outcome.SteadyMeasured.class).stream()
                                .map(Outcome.SteadyMeasured::spell)
                                .map(
                                        spell ->
                                                Episodes.Steady.of(
                                                        machine,
                                                        onOwnAxis(spell.fromMicros()),
                                                        spell))
                                .toList(),
                        replayed.alarms().stream().map(this::alarm).toList(),
                        replayed.all(Outcome.PhaseChanged.class).stream()
                                .map(Outcome.PhaseChanged::change)
                                .map(this::phase)
                                .toList(),
                        replayed.all(Outcome.InstructionRefused.class).stream()
                                .map(Outcome.InstructionRefused::reason)
                                .map(AlarmWords.ENGLISH::refusal)
                                .toList()));
    }

    private static OptionalLong about(Replayed replayed) {
        return replayed.about().stream()
                .mapToLong(judged -> judged.startup().startedAtMicros())
                .findFirst();
    }

    private Start start(Replayed replayed, JudgedStartup judged) {
        String machine = replayed.settings().machine();
        return new Start(
                Episodes.Start.of(machine, judged.startup(), judged.verdict(), judged.run()),
                onOwnAxis(judged.startup().startedAtMicros()),
                WeighedCause.of(replayed.why(judged)));
    }

    private Phase phase(PhaseChange change) {
        return new Phase(
                change.from(),
                change.to(),
                change.atMicros(),
                Json.IN_PSI.reason(change.reason()),
                onOwnAxis(change.atMicros()));
    }

    private static Fed fed(Counts counts) {
        return new Fed(
                counts.inputs(),
                counts.readings().isEmpty() ? Map.of() : new EnumMap<>(counts.readings()),
                counts.uncertain(),
                counts.bad(),
                counts.late(),
                counts.ahead(),
                counts.disbelieved(),
                counts.gaps(),
                counts.longestGapMicros() / MICROS_PER_SECOND);
    }

    private Alarm alarm(AlarmLife alarm) {
        Finding finding = alarm.gravest();
        OptionalLong returned = time(alarm.returned());
        OptionalLong acknowledged = time(alarm.acknowledged());
        return new Alarm(
                alarm.first().alarmId(),
                finding.rule(),
                finding.channel(),
                finding.grade(),
                alarm.first().atMicros(),
                onOwnAxis(alarm.first().atMicros()),
                returned,
                onOwnAxis(returned),
                acknowledged,
                onOwnAxis(acknowledged),
                alarm.last().to(),
                finding.sinceMicros(),
                finding.quantity(),
                finding.measured(),
                finding.limit(),
                finding.sense(),
                Json.IN_PSI.remarks(finding),
                alarm.changes().stream()
                        .filter(change -> isAboutGrade(change.event()))
                        .map(c -> new GradeThen(c.atMicros(), c.finding().grade()))
                        .toList());
    }

    private static OptionalLong time(Optional<AlarmChange> change) {
        return change.map(c -> OptionalLong.of(c.atMicros())).orElse(OptionalLong.empty());
    }

    private static boolean isAboutGrade(AlarmEvent event) {
        return switch (event) {
            case RAISED, WORSENED, EASED, CHATTERING -> true;
            case RETURNED,
                    ACKNOWLEDGED,
                    LATCHED,
                    RESET,
                    SHELVED,
                    UNSHELVED,
                    SUPPRESSED,
                    RELEASED,
                    REMOVED,
                    RESTORED,
                    REPEATED,
                    SETTLED ->
                    false;
        };
    }

    private OptionalDouble onOwnAxis(OptionalLong micros) {
        return micros.isPresent() ? onOwnAxis(micros.getAsLong()) : OptionalDouble.empty();
    }

    private OptionalDouble onOwnAxis(long micros) {
        return zeroMicros.isPresent()
                ? OptionalDouble.of((micros - zeroMicros.getAsLong()) / MICROS_PER_SECOND)
                : OptionalDouble.empty();
    }
}
