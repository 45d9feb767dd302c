package leat.rule;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.rule.RunVerdict.Aspect;
import leat.rule.RunVerdict.Mark;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.wire.State;

/** Every rule that a machine is judged by. Thread-confined to its watch. */
public final class RuleBook {

    private final CriticalFindings critical;
    private final RiseJudge rise;
    private final Learner learner;
    private final BaselineJudge own;
    private final SwapJudge swap;
    private final Map<Channel, SignalJudge> signals = new EnumMap<>(Channel.class);
    private final List<Judge> pressures;

    /**
     * @param limits what to judge by
     * @param wired the channels that the machine has
     * @param baseline what is usual for the machine, where that is known
     * @param findings told of each change
     * @param lessons told of what is learned of the machine
     */
    public RuleBook(
            Limits limits,
            Set<Channel> wired,
            Optional<Baseline> baseline,
            Findings findings,
            Lessons lessons) {
        critical = new CriticalFindings(findings);
        rise = new RiseJudge(limits, wired.contains(Channel.INLET));
        learner = new Learner(limits, baseline, lessons);
        own = new BaselineJudge(limits);
        swap = new SwapJudge(limits);
        for (Channel channel : Channel.values()) {
            if (wired.contains(channel)) {
                signals.put(channel, new SignalJudge(channel, limits));
            }
        }
        pressures = new ArrayList<>(List.of(rise));
        if (wired.contains(Channel.INLET)) {
            pressures.add(new InletJudge(limits));
            pressures.add(new RatioJudge(limits));
        }
        LevelJudge level = new LevelJudge(limits);
        pressures.add(level);
        pressures.add(new RestJudge(limits));
        if (wired.contains(Channel.FILTERED)) {
            pressures.add(new FilteredLevelJudge(limits, level::isLow));
            pressures.add(new FilterJudge(limits));
        }
    }

    /**
     * The line was opened and closed again: the next starts may be slow, and what was usual before
     * need not be so now.
     */
    public void serviced(long atMicros) {
        rise.serviced();
        learn(Learning.Cause.SERVICE, atMicros);
    }

    /**
     * A setting or a gauge is another one: what was usual before need not be so now. The line
     * stayed shut, so that no air slows the next starts.
     */
    public void changed(long atMicros) {
        learn(Learning.Cause.CHANGED, atMicros);
    }

    /** The machine is sound: its next starts make its baseline. */
    public void learnAnew(long atMicros) {
        learn(Learning.Cause.COMMAND, atMicros);
    }

    private void learn(Learning.Cause cause, long atMicros) {
        learner.begin(cause, atMicros);
        own.outOfDate(atMicros, Remark.Kind.LEARNED_ANEW, critical);
    }

    /** What is usual for the machine; empty while it is learned. */
    public Optional<Baseline> baseline() {
        return learner.baseline();
    }

    /** Whether the next start is one of the first after service. */
    public boolean isRelaxed() {
        return rise.isRelaxed();
    }

    /**
     * What this rule found is let go and judged afresh; of the baseline {@link #serviced} does
     * that.
     */
    public void letGo(Rule rule, Situation situation) {
        pressures.forEach(judge -> judge.letGo(rule, situation, critical));
    }

    /** Time from a start by which the pressure must have risen, microseconds. */
    public long riseDeadlineMicros() {
        return rise.deadlineMicros();
    }

    /** The time for a climb is over, and the pressure climbs on, still below its level. */
    public void overdue(Startup soFar) {
        if (!saysNothing(rise.restsOn(), soFar.measuredAtMicros())) {
            rise.overdue(soFar, critical);
        }
    }

    /**
     * Judges a start as the event that it is.
     *
     * @param overdue whether it was called while it still climbed
     */
    public StartupVerdict judge(Startup startup, boolean overdue) {
        Set<Channel> both = Set.of(Channel.INLET, Channel.BOOSTED);
        if (saysNothing(both, startup.measuredAtMicros())) {
            Remark.Kind why =
                    isStuck(both) ? Remark.Kind.READING_STUCK : Remark.Kind.READING_DOUBTED;
            return StartupVerdict.of(StartupVerdict.Outcome.NOT_JUDGED, Remark.of(why));
        }
        Optional<Baseline> baseline = learner.baseline();
        StartupVerdict verdict = rise.judge(startup, overdue, baseline, critical);
        return verdict.with(
                baseline.map(known -> own.judge(startup, known, critical)).orElse(List.of()));
    }

    /**
     * Judges a run that has ended, by its means; what breaks a limit for sure is found. While it
     * lasts it is only marked.
     *
     * @param reached what its start was measured to reach; nothing where that was not seen
     * @param climb how its start was judged
     * @return how it was, thing by thing
     */
    public List<RunVerdict.Part> judge(
            Run run, Map<Measurand, Figure> reached, Mark climb, Situation situation) {
        RunSeen seen = new RunSeen(run, reached, situation);
        List<RunVerdict.Part> parts = new ArrayList<>();
        parts.add(new RunVerdict.Part(Aspect.RISE, climb));
        for (Judge judge : pressures) {
            if (!saysNothing(judge.restsOn(), situation.atMicros())) {
                parts.addAll(judge.judge(seen, critical));
            }
        }
        return parts;
    }

    /** Compares a run, or as much as there is of one that lasts, with what is usual. */
    public void compare(Run run) {
        if (!saysNothing(Set.of(Channel.INLET, Channel.BOOSTED), run.endedAtMicros())) {
            learner.baseline().ifPresent(known -> own.judge(run, known, critical));
        }
    }

    /**
     * Learns from a start that has been judged.
     *
     * @param relaxed whether it was one of the first after service
     */
    public void learn(Startup startup, StartupVerdict verdict, boolean relaxed) {
        learner.take(startup, verdict, relaxed);
    }

    /** Learns from a run that is over and was good. */
    public void learn(Run run) {
        learner.take(run);
    }

    /** Compares a stop with what is usual, and learns from it. */
    public void rested(RestSpell rest) {
        if (!saysNothing(Set.of(Channel.BOOSTED), rest.measuredAtMicros())) {
            learner.baseline().ifPresent(known -> own.judge(rest, known, critical));
            learner.take(rest);
        }
    }

    /** A reading was shown on its gauge, BAD or usable. */
    public void read(Reading reading) {
        Channel channel = reading.channel();
        if (!channel.isPressure() || !signals.containsKey(channel)) {
            return;
        }
        if (reading.quality() == Quality.HELD) {
            signals.get(channel).held(reading.atMicros());
            return; // it stands still because nobody wrote anew
        }
        signals.get(channel).read(reading);
        Channel other = channel == Channel.INLET ? Channel.BOOSTED : Channel.INLET;
        if (reading.quality().isUsable()
                && channel != Channel.FILTERED
                && signals.containsKey(other)) {
            signals.get(other).otherRead(reading.value());
        }
    }

    /** Event time has jumped: delays start afresh. */
    public void forget() {
        signals.values().forEach(SignalJudge::forget);
        swap.forget();
        pressures.forEach(Judge::pause);
    }

    /** A second has passed. */
    public void tick(Situation situation) {
        for (SignalJudge signal : signals.values()) {
            signal.tick(situation, critical);
        }
        swap.tick(situation, critical);
        for (Judge judge : pressures) {
            if (saysNothing(judge.restsOn(), situation.atMicros())) {
                judge.pause();
            } else {
                judge.tick(situation, critical);
            }
        }
    }

    private boolean saysNothing(Set<Channel> channels, long nowMicros) {
        return isStuck(channels) || isDoubted(channels, nowMicros);
    }

    /** A reading that stands still says nothing of the pressure. */
    private boolean isStuck(Set<Channel> channels) {
        for (Channel channel : channels) {
            SignalJudge signal = signals.get(channel);
            if (signal != null && signal.isStuck()) {
                return true;
            }
        }
        return false;
    }

    /** Nor does one that has never read right, or that may be of the other gauge. */
    private boolean isDoubted(Set<Channel> channels, long nowMicros) {
        for (Channel channel : channels) {
            SignalJudge signal = signals.get(channel);
            if (signal != null && signal.isDoubted()) {
                return true;
            }
        }
        return swap.isDoubted(nowMicros);
    }

    public void keep(State state) {
        state.part("critical", critical::keep);
        state.part("learner", learner::keep);
        state.part("own", own::keep);
        swap.keep(state);
        state.part(
                "signals",
                part -> signals.forEach((channel, s) -> part.part(channel.key(), s::keep)));
        pressures.forEach(judge -> judge.keep(state));
    }
}
