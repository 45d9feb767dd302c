package leat.replay;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import leat.alarm.AlarmChange;
import leat.diagnose.Observation;
import leat.diagnose.WorkDone;
import leat.measure.Startup;
import leat.phase.Phase;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.watch.Glance;
import leat.watch.Outcome;
import leat.watch.Recollection;
import leat.watch.WatchSettings;

/** What a watch has said of a past so far. Thread-confined. */
final class Heard implements Consumer<Outcome> {

    private final List<Outcome> outcomes = new ArrayList<>();
    private final List<JudgedStartup> startups = new ArrayList<>();
    private final Map<String, List<AlarmChange>> alarms = new LinkedHashMap<>();
    private final Recollection recollection = Recollection.ofAll();

    /** What was seen before the machine was worked on, or learned anew. */
    private final Map<Long, Observation> before = new HashMap<>();

    private final WorkDone work = new WorkDone();
    private Optional<Baseline> baseline;

    Heard(Optional<Baseline> baseline) {
        this.baseline = baseline;
    }

    /**
     * All of it.
     *
     * @param tally what the watch was fed
     * @param glance how it stood at the end
     * @param lasting the run that lasted then
     */
    Replayed told(WatchSettings settings, Tally tally, Glance glance, Optional<JudgedRun> lasting) {
        lasting.map(JudgedRun::run).ifPresent(recollection::lookedAt);
        return new Replayed(
                settings,
                tally.isEmpty() ? 0 : tally.firstMicros(),
                tally.isEmpty() ? 0 : tally.toMicros(),
                outcomes,
                startups.stream().map(start -> start.seen(seen(start.startup()))).toList(),
                recollection.all(),
                Optional.empty(),
                work.priors(tally.toMicros()),
                work.answers(tally.toMicros()),
                alarms.values().stream().map(AlarmLife::new).toList(),
                baseline,
                lasting,
                tally.counts(glance));
    }

    private Observation seen(Startup startup) {
        long started = startup.startedAtMicros();
        return recollection
                .of(startup)
                .or(() -> Optional.ofNullable(before.get(started)))
                .orElseGet(() -> Observation.at(started));
    }

    @Override
    public void accept(Outcome outcome) {
        outcomes.add(outcome);
        if (outcome instanceof Outcome.LearningProgressed) {
            keepSeen();
        }
        if (outcome instanceof Outcome.PhaseChanged changed
                && changed.change().to() == Phase.RISE) {
            work.started();
        }
        recollection.accept(outcome);
        if (outcome instanceof Outcome.StartupMeasured measured) {
            startups.add(
                    new JudgedStartup(
                            measured.startup(),
                            measured.verdict(),
                            baseline,
                            Optional.empty(),
                            seen(measured.startup()),
                            work.priors(measured.atMicros())));
        } else if (outcome instanceof Outcome.RunJudged judged) {
            judged(judged.judged());
        } else if (outcome instanceof Outcome.AlarmChanged changed) {
            AlarmChange change = changed.change();
            alarms.computeIfAbsent(change.alarmId(), id -> new ArrayList<>()).add(change);
        } else if (outcome instanceof Outcome.LearningProgressed) {
            baseline = Optional.empty();
        } else if (outcome instanceof Outcome.BaselineLearned learned) {
            baseline = Optional.of(learned.baseline());
        }
    }

    private void keepSeen() {
        recollection.all().forEach(one -> before.put(one.startedAtMicros(), one));
    }

    /** Everything has been said of this input. */
    void fed(Input input) {
        if (input instanceof ClockStep step) {
            work.step(step.fromMicros(), step.atMicros());
        } else if (input instanceof Instruction said
                && said.order() instanceof Order.Journal journal
                && !isRefused(said)) {
            work.noted(said.atMicros(), journal);
            if (journal.entry().beginsAnew()) {
                keepSeen();
                recollection.forget();
            }
        }
    }

    private boolean isRefused(Instruction instruction) {
        return !outcomes.isEmpty()
                && outcomes.get(outcomes.size() - 1) instanceof Outcome.InstructionRefused refused
                && refused.instruction().equals(instruction);
    }

    private void judged(JudgedRun run) {
        for (int i = startups.size() - 1; i >= 0; i--) {
            if (startups.get(i).began(run)) {
                startups.set(i, startups.get(i).in(run));
                return;
            }
        }
    }
}
