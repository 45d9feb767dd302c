package leat.replay;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import leat.alarm.AlarmChange;
import leat.diagnose.Observation;
import leat.measure.Startup;
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
                recollection.testimony(tally.toMicros()),
                Optional.empty(),
                alarms.values().stream().map(AlarmLife::new).toList(),
                baseline,
                lasting,
                tally.counts(glance),
                OptionalLong.empty());
    }

    private Observation seen(Startup startup) {
        long started = startup.startedAtMicros();
        return recollection
                .of(startup)
                .or(() -> Optional.ofNullable(before.get(started)))
                .orElseGet(() -> Observation.at(started));
    }

    private void putAside() {
        recollection.all().forEach(one -> before.put(one.startedAtMicros(), one));
    }

    /** The watch was fed this, and has said what there was to say to it. */
    void fed(Input input) {
        if (input instanceof ClockStep step) {
            recollection.step(step.fromMicros(), step.atMicros());
        } else if (input instanceof Instruction asked
                && asked.order() instanceof Order.Journal journal
                && !isRefused(asked)) {
            noted(asked.atMicros(), journal);
        }
    }

    private boolean isRefused(Instruction asked) {
        return !outcomes.isEmpty()
                && outcomes.get(outcomes.size() - 1) instanceof Outcome.InstructionRefused refused
                && refused.instruction().equals(asked);
    }

    /** What a check shows is of the last start, unless somebody worked on the machine after it. */
    private void noted(long atMicros, Order.Journal journal) {
        putAside();
        recollection.noted(atMicros, journal);
        int last = startups.size() - 1;
        if (last >= 0 && recollection.of(startups.get(last).startup()).isPresent()) {
            startups.set(last, startups.get(last).told(recollection.testimony(atMicros)));
        }
    }

    @Override
    public void accept(Outcome outcome) {
        outcomes.add(outcome);
        if (outcome instanceof Outcome.LearningProgressed
                || outcome instanceof Outcome.ServiceChanged) {
            putAside();
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
                            recollection.testimony(measured.atMicros())));
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

    private void judged(JudgedRun run) {
        for (int i = startups.size() - 1; i >= 0; i--) {
            if (startups.get(i).began(run)) {
                startups.set(i, startups.get(i).in(run));
                return;
            }
        }
    }
}
