package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
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
 * @param alarms in the order of their raising
 * @param baseline what is usual for the machine at the end; empty while it is learned
 * @param lasting the run that still lasted at the end, as far as it had come
 * @param counts what the past consisted of
 */
public record Replayed(
        WatchSettings settings,
        long fromMicros,
        long toMicros,
        List<Outcome> outcomes,
        List<JudgedStartup> startups,
        List<AlarmLife> alarms,
        Optional<Baseline> baseline,
        Optional<JudgedRun> lasting,
        Counts counts) {

    public Replayed {
        requireNonNull(settings, "settings");
        requireNonNull(baseline, "baseline");
        requireNonNull(lasting, "lasting");
        requireNonNull(counts, "counts");
        outcomes = List.copyOf(outcomes);
        startups = List.copyOf(startups);
        alarms = List.copyOf(alarms);
    }

    /** The same, but the start whose run still lasted at the end has it as far as it had come. */
    public Replayed atEnd() {
        return lasting.map(this::with).orElse(this);
    }

    /** The same, but the start that began this run has it, and none lasted at the end. */
    public Replayed with(JudgedRun run) {
        return new Replayed(
                settings,
                fromMicros,
                toMicros,
                outcomes,
                startups.stream().map(start -> start.began(run) ? start.in(run) : start).toList(),
                alarms,
                baseline,
                Optional.empty(),
                counts);
    }

    /** The outcomes of one kind, in order. */
    public <O extends Outcome> List<O> all(Class<O> kind) {
        return outcomes.stream().filter(kind::isInstance).map(kind::cast).toList();
    }
}
