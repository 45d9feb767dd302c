package leat.watch;

import java.util.ArrayList;
import java.util.List;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.ServiceChange;
import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.phase.PhaseChange;
import leat.rule.Baseline;
import leat.rule.Learning;
import leat.rule.StartupVerdict;
import leat.signal.Input;
import leat.signal.Instruction;

/** Outcomes sorted by kind, for tests to look at. */
final class Told implements Outcome.Receiver {

    final List<PhaseChange> phases = new ArrayList<>();
    final List<Startup> startups = new ArrayList<>();
    final List<StartupVerdict> verdicts = new ArrayList<>();
    final List<SteadySpell> steadies = new ArrayList<>();
    final List<RestSpell> rests = new ArrayList<>();
    final List<AlarmChange> alarms = new ArrayList<>();
    final List<Learning> learnings = new ArrayList<>();
    final List<Baseline> baselines = new ArrayList<>();
    final List<ServiceChange> services = new ArrayList<>();
    final List<String> refusals = new ArrayList<>();

    static Told of(List<Outcome> outcomes) {
        Told told = new Told();
        outcomes.forEach(outcome -> outcome.to(told));
        return told;
    }

    static Told by(Line line) {
        return of(line.outcomes());
    }

    /** What a fresh watch of these settings says of these inputs. */
    static Told by(WatchSettings settings, List<Input> inputs) {
        List<Outcome> outcomes = new ArrayList<>();
        Watch watch = new Watch(settings);
        inputs.forEach(input -> watch.feed(input, outcomes::add));
        return of(outcomes);
    }

    /** Each raised or worsened alarm as {@code rule GRADE}. */
    List<String> raised() {
        return alarms.stream()
                .filter(a -> a.event() == AlarmEvent.RAISED || a.event() == AlarmEvent.WORSENED)
                .map(a -> a.finding().rule().key() + " " + a.finding().grade())
                .toList();
    }

    @Override
    public void phaseChanged(PhaseChange change) {
        phases.add(change);
    }

    @Override
    public void startupMeasured(Startup startup, StartupVerdict verdict) {
        startups.add(startup);
        verdicts.add(verdict);
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
        alarms.add(change);
    }

    @Override
    public void learningProgressed(Learning learning) {
        learnings.add(learning);
    }

    @Override
    public void baselineLearned(Baseline baseline) {
        baselines.add(baseline);
    }

    @Override
    public void instructionRefused(Instruction instruction, String reason) {
        refusals.add(reason);
    }

    @Override
    public void serviceChanged(ServiceChange change) {
        services.add(change);
    }
}
