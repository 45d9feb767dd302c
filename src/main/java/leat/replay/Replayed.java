package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import leat.alarm.Refusal;
import leat.measure.RestSpell;
import leat.measure.SteadySpell;
import leat.phase.PhaseChange;
import leat.rule.Baseline;
import leat.watch.WatchSettings;

/**
 * What a watch said of a past, each kind in order.
 *
 * @param settings the machine, and what it was judged by
 * @param fromMicros time of the first input, microseconds UTC; 0 for a past of nothing
 * @param toMicros time of the last input
 * @param phases what the line did
 * @param startups starts that were measured
 * @param rests rest pressures that were measured
 * @param steadies steady spells
 * @param alarms in the order of their raising
 * @param refused why instructions could not be followed
 * @param baseline what is usual for the machine at the end; empty while it is learned
 * @param counts what the past consisted of
 */
public record Replayed(
        WatchSettings settings,
        long fromMicros,
        long toMicros,
        List<PhaseChange> phases,
        List<JudgedStartup> startups,
        List<RestSpell> rests,
        List<SteadySpell> steadies,
        List<AlarmLife> alarms,
        List<Refusal> refused,
        Optional<Baseline> baseline,
        Counts counts) {

    public Replayed {
        requireNonNull(settings, "settings");
        requireNonNull(baseline, "baseline");
        requireNonNull(counts, "counts");
        phases = List.copyOf(phases);
        startups = List.copyOf(startups);
        rests = List.copyOf(rests);
        steadies = List.copyOf(steadies);
        alarms = List.copyOf(alarms);
        refused = List.copyOf(refused);
    }
}
