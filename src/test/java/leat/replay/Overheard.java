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
import leat.rule.Limit;
import leat.rule.StartupVerdict;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.watch.Glance;
import leat.watch.Outcome;
import leat.watch.WatchSettings;

/** For tests: puts what was fed and said live into the form of a replay, without replaying. */
public final class Overheard implements Outcome.Receiver {

    private final WatchSettings settings;
    private final Tally tally;
    private final List<PhaseChange> phases = new ArrayList<>();
    private final List<JudgedStartup> startups = new ArrayList<>();
    private final List<RestSpell> rests = new ArrayList<>();
    private final List<SteadySpell> steadies = new ArrayList<>();
    private final Map<String, List<AlarmChange>> alarms = new LinkedHashMap<>();
    private final List<String> refused = new ArrayList<>();
    private Optional<Baseline> baseline;

    public Overheard(WatchSettings settings) {
        this.settings = settings;
        baseline = settings.baseline();
        tally = new Tally(settings.limits().micros(Limit.SIGNAL_BLIND));
    }

    public void fed(Input input) {
        tally.take(input);
    }

    /**
     * @param end how the live watch stood at the end
     */
    public Replayed end(Glance end) {
        return new Replayed(
                settings,
                tally.firstMicros(),
                tally.toMicros(),
                phases,
                startups,
                rests,
                steadies,
                alarms.values().stream().map(AlarmLife::new).toList(),
                refused,
                baseline,
                tally.counts(end));
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
    public void baselineLearned(Baseline learned) {
        baseline = Optional.of(learned);
    }

    @Override
    public void learningProgressed(Learning progress) {
        baseline = Optional.empty();
    }

    @Override
    public void serviceChanged(ServiceChange change) {
        // its alarms tell
    }

    @Override
    public void instructionRefused(Instruction instruction, String reason) {
        refused.add(reason);
    }
}
