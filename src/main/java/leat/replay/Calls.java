package leat.replay;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.function.Consumer;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.rule.Finding;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.SourceLost;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/**
 * Feeds a fresh watch, the same that the daemon hosts, and keeps nothing but what alarms do, and
 * counts: memory for years of a machine. Thread-confined.
 */
final class Calls implements Consumer<Input> {

    private final Watch watch;
    private final Heard heard = new Heard();
    private RunCount runs = RunCount.NONE;
    private final Consumer<Outcome> outcomes =
            outcome -> {
                if (outcome instanceof Outcome.AlarmChanged changed) {
                    heard.alarmChanged(changed);
                } else if (outcome instanceof Outcome.PhaseChanged changed) {
                    heard.phaseChanged(changed);
                } else if (outcome instanceof Outcome.StartupMeasured) {
                    runs = runs.start();
                } else if (outcome instanceof Outcome.RunJudged judged && judged.run().over()) {
                    runs = runs.run(judged.verdict());
                }
            };
    private long fed;

    /**
     * @param inputsBefore how many inputs of the past came before those that this is fed
     */
    Calls(WatchSettings settings, long inputsBefore) {
        watch = new Watch(settings);
        fed = inputsBefore;
    }

    @Override
    public void accept(Input input) {
        fed++;
        watch.feed(input, outcomes);
    }

    /** Everything that has happened to alarms so far, and when the machine ran. */
    List<Outcome> heard() {
        return List.copyOf(heard.outcomes);
    }

    /** The starts and runs so far; of all when {@link #end} has been called. */
    RunCount runs() {
        return runs;
    }

    /**
     * Ends what is fed as {@link Replay#end} does.
     *
     * @return every call, in the order of raising
     */
    List<AlarmCall> end(long lastMicros) {
        for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
            watch.feed(new SourceLost(channel, lastMicros, Replay.END), outcomes);
        }
        watch.runSoFar().ifPresent(run -> runs = runs.run(run.verdict()));
        List<AlarmCall> calls = new ArrayList<>(heard.over);
        heard.open.values().forEach(open -> calls.add(open.until(OptionalLong.empty(), fed)));
        calls.sort(Comparator.comparingLong(AlarmCall::fromInput));
        return calls;
    }

    /** An alarm that stands. */
    private record Open(Finding gravest, long raisedAtMicros, long fromInput) {

        Open grownTo(Finding finding) {
            return finding.grade().compareTo(gravest.grade()) > 0
                    ? new Open(finding, raisedAtMicros, fromInput)
                    : this;
        }

        AlarmCall until(OptionalLong returnedAtMicros, long toInput) {
            return new AlarmCall(gravest, raisedAtMicros, returnedAtMicros, fromInput, toInput);
        }
    }

    /** Of all that is said, the calls alone are kept. */
    private final class Heard {

        private final Map<String, Open> open = new HashMap<>();
        private final List<AlarmCall> over = new ArrayList<>();
        private final List<Outcome> outcomes = new ArrayList<>();

        void phaseChanged(Outcome.PhaseChanged changed) {
            if (changed.change().isOfRunning()) {
                outcomes.add(changed);
            }
        }

        void alarmChanged(Outcome.AlarmChanged changed) {
            AlarmChange change = changed.change();
            String id = change.alarmId();
            outcomes.add(changed);
            switch (change.event()) {
                case RAISED, CHATTERING -> {
                    if (change.to() != AlarmState.SUPPRESSED) {
                        stands(change);
                    }
                }
                case UNSHELVED, RELEASED, RESTORED -> {
                    if (change.isCall()) {
                        stands(change);
                    }
                }
                case WORSENED, EASED ->
                        open.computeIfPresent(id, (key, was) -> was.grownTo(change.finding()));
                case RETURNED, LATCHED -> {
                    if (open.containsKey(id)) {
                        over.add(open.remove(id).until(OptionalLong.of(change.atMicros()), fed));
                    }
                }
                case ACKNOWLEDGED, RESET, SHELVED, SUPPRESSED, REMOVED, REPEATED, SETTLED -> {
                    // it stands as before
                }
            }
        }

        private void stands(AlarmChange change) {
            open.merge(
                    change.alarmId(),
                    new Open(change.finding(), change.atMicros(), fed),
                    (was, now) -> was.grownTo(now.gravest()));
        }
    }
}
