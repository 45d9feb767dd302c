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
import leat.report.Json;
import leat.rule.Baseline;
import leat.rule.Learning;
import leat.rule.StartupVerdict;
import leat.signal.Input;
import leat.words.AlarmWords;

/** Outcomes sorted by kind, for tests to look at. */
final class Told {

    final List<PhaseChange> phases = new ArrayList<>();
    final List<Startup> startups = new ArrayList<>();
    final List<StartupVerdict> verdicts = new ArrayList<>();
    final List<Outcome.RunJudged> runs = new ArrayList<>();
    final List<SteadySpell> steadies = new ArrayList<>();
    final List<RestSpell> rests = new ArrayList<>();
    final List<AlarmChange> alarms = new ArrayList<>();
    final List<Learning> learnings = new ArrayList<>();
    final List<Baseline> baselines = new ArrayList<>();
    final List<ServiceChange> services = new ArrayList<>();
    final List<String> refusals = new ArrayList<>();

    static Told of(List<Outcome> outcomes) {
        Told told = new Told();
        outcomes.forEach(told::take);
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

    /** What an English page says of a start. */
    String note(int start) {
        return Json.IN_PSI.note(verdicts.get(start));
    }

    private void take(Outcome outcome) {
        if (outcome instanceof Outcome.PhaseChanged changed) {
            phases.add(changed.change());
        } else if (outcome instanceof Outcome.StartupMeasured measured) {
            startups.add(measured.startup());
            verdicts.add(measured.verdict());
        } else if (outcome instanceof Outcome.RunJudged judged) {
            runs.add(judged);
        } else if (outcome instanceof Outcome.SteadyMeasured measured) {
            steadies.add(measured.spell());
        } else if (outcome instanceof Outcome.RestMeasured measured) {
            rests.add(measured.spell());
        } else if (outcome instanceof Outcome.AlarmChanged changed) {
            alarms.add(changed.change());
        } else if (outcome instanceof Outcome.LearningProgressed progressed) {
            learnings.add(progressed.learning());
        } else if (outcome instanceof Outcome.BaselineLearned learned) {
            baselines.add(learned.baseline());
        } else if (outcome instanceof Outcome.InstructionRefused refused) {
            refusals.add(AlarmWords.ENGLISH.refusal(refused.reason()));
        } else if (outcome instanceof Outcome.ServiceChanged changed) {
            services.add(changed.change());
        }
    }
}
