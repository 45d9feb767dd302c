package leat.replay;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
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
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.SourceLost;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/**
 * Feeds a fresh watch, the same that the daemon hosts, and keeps what it says. At the end both
 * pressures are lost, so that what is open is closed. Thread-confined.
 */
public final class Replay implements Consumer<Input> {

    static final String END = "end of the recording";

    private final WatchSettings settings;
    private final Watch watch;
    private final Tally tally;
    private final Heard heard;
    private final Consumer<Outcome> outcomes;

    public Replay(WatchSettings settings) {
        this.settings = settings;
        watch = new Watch(settings);
        heard = new Heard(settings.baseline());
        outcomes = outcome -> outcome.to(heard);
        tally = new Tally(settings.limits().micros(Limit.SIGNAL_BLIND));
    }

    /** The account of a whole past. */
    public static Replayed of(WatchSettings settings, Past past) {
        Replay replay = new Replay(settings);
        past.read(replay);
        return replay.end();
    }

    @Override
    public void accept(Input input) {
        tally.take(input);
        watch.feed(input, outcomes);
    }

    /** Ends the past and tells what was said of it; nothing may be fed afterwards. */
    public Replayed end() {
        if (!tally.isEmpty()) {
            for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
                watch.feed(new SourceLost(channel, tally.toMicros(), END), outcomes);
            }
        }
        return new Replayed(
                settings,
                tally.isEmpty() ? 0 : tally.firstMicros(),
                tally.isEmpty() ? 0 : tally.toMicros(),
                heard.phases,
                heard.startups,
                heard.rests,
                heard.steadies,
                heard.alarms.values().stream().map(AlarmLife::new).toList(),
                heard.refused,
                heard.baseline,
                tally.counts(watch.glance()));
    }

    /** What the watch has said so far. */
    private static final class Heard implements Outcome.Receiver {

        private final List<PhaseChange> phases = new ArrayList<>();
        private final List<JudgedStartup> startups = new ArrayList<>();
        private final List<RestSpell> rests = new ArrayList<>();
        private final List<SteadySpell> steadies = new ArrayList<>();
        private final Map<String, List<AlarmChange>> alarms = new LinkedHashMap<>();
        private final List<String> refused = new ArrayList<>();
        private Optional<Baseline> baseline;

        private Heard(Optional<Baseline> baseline) {
            this.baseline = baseline;
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
}
