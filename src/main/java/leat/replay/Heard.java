package leat.replay;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.ServiceChange;
import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.phase.PhaseChange;
import leat.rule.Baseline;
import leat.rule.Learning;
import leat.rule.StartupVerdict;
import leat.signal.Instruction;
import leat.watch.Glance;
import leat.watch.Outcome;
import leat.watch.WatchSettings;

/** What a watch has said of a past so far. Thread-confined. */
final class Heard implements Outcome.Receiver {

    private final List<PhaseChange> phases = new ArrayList<>();
    private final List<JudgedStartup> startups = new ArrayList<>();
    private final List<RestSpell> rests = new ArrayList<>();
    private final List<SteadySpell> steadies = new ArrayList<>();
    private final Map<String, List<AlarmChange>> alarms = new LinkedHashMap<>();
    private final List<String> refused = new ArrayList<>();
    private Optional<Baseline> baseline;

    Heard(Optional<Baseline> baseline) {
        this.baseline = baseline;
    }

    /**
     * All of it.
     *
     * @param tally what the watch was fed
     * @param glance how it stood at the end
     */
    Replayed told(WatchSettings settings, Tally tally, Glance glance) {
        return new Replayed(
                settings,
                tally.isEmpty() ? 0 : tally.firstMicros(),
                tally.isEmpty() ? 0 : tally.toMicros(),
                phases,
                startups,
                rests,
                steadies,
                alarms.values().stream().map(AlarmLife::new).toList(),
                refused,
                baseline,
                tally.counts(glance));
    }

    @Override
    public void phaseChanged(PhaseChange change) {
        phases.add(change);
    }

    @Override
    public void startupMeasured(Startup startup, StartupVerdict verdict) {
        startups.add(new JudgedStartup(startup, verdict, baseline));
    }

    @Override
    public void steadyMeasured(SteadySpell spell) {
        steadies.add(spell);
    }

    @Override
    public void restMeasured(RestSpell spell) {
        rests.add(spell);
    }

    @Override
    public void alarmChanged(AlarmChange change) {
        alarms.computeIfAbsent(change.alarmId(), id -> new ArrayList<>()).add(change);
    }

    @Override
    public void learningProgressed(Learning progress) {
        baseline = Optional.empty();
    }

    @Override
    public void baselineLearned(Baseline learned) {
        baseline = Optional.of(learned);
    }

    @Override
    public void instructionRefused(Instruction instruction, String reason) {
        refused.add(reason);
    }

    @Override
    public void serviceChanged(ServiceChange change) {
        // the journal tells of it
    }
}
