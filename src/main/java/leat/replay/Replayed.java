package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.diagnose.Diagnosis;
import leat.diagnose.Observation;
import leat.diagnose.Reference;
import leat.diagnose.Testimony;
import leat.measure.Startup;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
import leat.rule.RunVerdict;
import leat.store.StoredStartup;
import leat.watch.Outcome;
import leat.watch.WatchSettings;

/**
 * What a watch said of a past.
 *
 * @param settings the machine, and what it was judged by
 * @param fromMicros time of the first input, microseconds UTC; 0 for a past of nothing
 * @param toMicros time of the last input
 * @param outcomes all of it, in order
 * @param startups starts that were measured, each with the baseline that it was judged by
 * @param observations starts with their runs and stops, and what was wrong with the signals, since
 *     the machine was last worked on
 * @param testimony what people did and answered, as far as it counts at the end
 * @param sound what is usual for the machine by recordings of it when it was sound; empty where
 *     there are none
 * @param alarms in the order of their raising
 * @param baseline what is usual for the machine at the end; empty while it is learned
 * @param lasting the run that still lasted at the end, as far as it had come
 * @param counts what the past consisted of
 * @param asked when the start began that somebody asked for, microseconds UTC; empty where nobody
 *     asked for one
 */
public record Replayed(
        WatchSettings settings,
        long fromMicros,
        long toMicros,
        List<Outcome> outcomes,
        List<JudgedStartup> startups,
        List<Observation> observations,
        Testimony testimony,
        Optional<Reference> sound,
        List<AlarmLife> alarms,
        Optional<Baseline> baseline,
        Optional<JudgedRun> lasting,
        Counts counts,
        OptionalLong asked) {

    public Replayed {
        requireNonNull(settings, "settings");
        requireNonNull(baseline, "baseline");
        requireNonNull(lasting, "lasting");
        requireNonNull(counts, "counts");
        requireNonNull(asked, "asked");
        outcomes = List.copyOf(outcomes);
        startups = List.copyOf(startups);
        observations = List.copyOf(observations);
        requireNonNull(testimony, "testimony");
        requireNonNull(sound, "sound");
        alarms = List.copyOf(alarms);
    }

    /** The same, but the start whose run still lasted at the end has it as far as it had come. */
    public Replayed atEnd() {
        return lasting.map(this::with).orElse(this);
    }

    /** The same, but the start that began this run has it, and none lasted at the end. */
    public Replayed with(JudgedRun run) {
        List<JudgedStartup> told =
                startups.stream().map(start -> start.began(run) ? start.in(run) : start).toList();
        return but(told, sound, Optional.empty(), asked);
    }

    /** The same, compared with this instead of the baseline that it learned. */
    public Replayed comparedWith(Reference usual) {
        return but(startups, Optional.of(usual), lasting, asked);
    }

    /** The same, told of one of its starts. */
    public Replayed about(JudgedStartup start) {
        return but(startups, sound, lasting, OptionalLong.of(start.startup().startedAtMicros()));
    }

    /**
     * The same, told of a start of the store. A replay that begins within a run may not see it as
     * it was seen then: where it saw none at that instant, this stands as it was stored.
     */
    public Replayed about(StoredStartup stored) {
        long started = stored.startup().startedAtMicros();
        List<JudgedStartup> all = new ArrayList<>(startups);
        if (all.stream().noneMatch(start -> start.startup().startedAtMicros() == started)) {
            all.add(JudgedStartup.of(stored, settings.baseline()));
            all.sort(Comparator.comparingLong(start -> start.startup().startedAtMicros()));
        }
        return but(all, sound, lasting, OptionalLong.of(started));
    }

    private Replayed but(
            List<JudgedStartup> starts,
            Optional<Reference> usual,
            Optional<JudgedRun> run,
            OptionalLong start) {
        return new Replayed(
                settings,
                fromMicros,
                toMicros,
                outcomes,
                starts,
                observations,
                testimony,
                usual,
                alarms,
                baseline,
                run,
                counts,
                start);
    }

    /**
     * The start that it is about: the one that was asked for, else the one with whose measurement
     * the past ends. Empty of a past that is about no start more than another.
     */
    public Optional<JudgedStartup> about() {
        return startups.stream()
                .filter(start -> isAbout(start.startup()))
                .reduce((before, last) -> last);
    }

    private boolean isAbout(Startup startup) {
        return asked.isPresent()
                ? startup.startedAtMicros() == asked.getAsLong()
                : startup.measuredAtMicros() == toMicros;
    }

    /** The start to tell of: the one that it is about, else the gravest. */
    public Optional<JudgedStartup> told() {
        return about().or(() -> startups.stream().min(JudgedStartup.GRAVEST_FIRST));
    }

    /** The causes of what was seen in all of it. */
    public Diagnosis why() {
        List<Observation> others = baseline.map(this::notOf).orElse(observations);
        Testimony said = hasCalled() ? testimony.called() : testimony;
        if (sound.isPresent() || others.isEmpty()) {
            return said.why(observations, sound.orElseGet(Reference::general));
        }
        return said.why(others, Reference.of(baseline));
    }

    /** Whether a pressure has called since the first of the observations. */
    private boolean hasCalled() {
        long since = observations.isEmpty() ? toMicros : observations.get(0).startedAtMicros();
        return alarms.stream()
                .flatMap(alarm -> alarm.changes().stream())
                .anyMatch(
                        change ->
                                change.isCall()
                                        && change.atMicros() >= since
                                        && !change.finding().rule().isAboutSignal());
    }

    /** What a baseline was learned from says nothing beside it. */
    private List<Observation> notOf(Baseline learned) {
        return observations.stream()
                .filter(one -> !learned.starts().contains(one.startedAtMicros()))
                .toList();
    }

    /** The causes of what was seen in one start, its run and the stop after it. */
    public Diagnosis why(JudgedStartup start) {
        boolean isCalled = start.mark().compareTo(RunVerdict.Mark.ADVISORY) >= 0;
        return (isCalled ? start.testimony().called() : start.testimony())
                .why(List.of(start.seen()), sound.orElseGet(() -> Reference.of(start.baseline())));
    }

    /** The starts that were seen and judged, by readings that could be believed. */
    public List<Observation> judged() {
        return observations.stream()
                .filter(one -> one.start().isPresent() && one.signals().isEmpty())
                .toList();
    }

    /** The outcomes of one kind, in order. */
    public <O extends Outcome> List<O> all(Class<O> kind) {
        return outcomes.stream().filter(kind::isInstance).map(kind::cast).toList();
    }
}
