package leat.rule;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
import leat.measure.DemandLevels;
import leat.measure.Measurand;
import leat.phase.Demand;
import leat.rule.Finding.Quantity;
import leat.rule.RunVerdict.Aspect;
import leat.signal.Channel;
import leat.wire.State;

/**
 * The boosted level while steady: about 100 psi is good, at least 80, no need to go above about 120
 * (common practice, no published source). Too low counts with the jet on, too high with it off, and
 * with it on where it is so even then: delays count the time in that state, over the other. Where
 * the two are not told apart, all counts.
 */
final class LevelJudge implements Judge {

    static final Supplier<List<Remark>> JET_ON = () -> List.of(Remark.of(Remark.Kind.JET_ON));
    private static final Supplier<List<Remark>> JET_OFF =
            () -> List.of(Remark.of(Remark.Kind.JET_OFF));

    private final long armMicros;
    private final GradedLimits low;
    private final GradedLimits high;

    LevelJudge(Limits limits) {
        armMicros = limits.micros(Limit.LEVEL_ARM);
        long off = limits.micros(Limit.LEVEL_OFF_DELAY);
        low =
                new GradedLimits(
                        Rule.LEVEL_LOW,
                        Channel.BOOSTED,
                        Quantity.PRESSURE_PSI,
                        List.of(
                                low(Grade.WARNING, Limit.LEVEL_WARNING, limits, off),
                                low(Grade.ADVISORY, Limit.LEVEL_ADVISORY, limits, off)));
        high =
                new GradedLimits(
                        Rule.LEVEL_HIGH,
                        Channel.BOOSTED,
                        Quantity.PRESSURE_PSI,
                        List.of(
                                high(Grade.WARNING, Limit.LEVEL_HIGH_WARNING, limits, off),
                                high(Grade.ADVISORY, Limit.LEVEL_HIGH_ADVISORY, limits, off)));
    }

    static GradedLimit low(Grade grade, Limit limit, Limits limits, long off) {
        double psi = limits.get(limit);
        return GradedLimit.atLeast(
                grade,
                psi,
                psi + limits.get(Limit.LEVEL_DEADBAND),
                limits.micros(Limit.LEVEL_DELAY),
                off);
    }

    private static GradedLimit high(Grade grade, Limit limit, Limits limits, long off) {
        double psi = limits.get(limit);
        return GradedLimit.atMost(
                grade,
                psi,
                psi - limits.get(Limit.LEVEL_HIGH_DEADBAND),
                limits.micros(Limit.LEVEL_HIGH_DELAY),
                off);
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        if (!situation.isSteadyFor(armMicros)) {
            pause();
            return;
        }
        DemandLevels levels = situation.levels();
        switch (levels.demand()) {
            case UNKNOWN -> {
                double boosted = situation.gauges().boosted().fiveSecondMean();
                low.judge(situation, boosted, findings);
                high.judge(situation, boosted, findings);
            }
            case DRAWN -> {
                double boosted = levels.boostedPsi(Demand.DRAWN);
                low.judge(situation, boosted, JET_ON, findings);
                if (high.isBroken(boosted)) {
                    high.judge(situation, boosted, JET_ON, findings);
                } else {
                    high.leaveOut(situation);
                }
            }
            case PAUSED -> {
                low.leaveOut(situation);
                high.judge(situation, levels.boostedPsi(Demand.PAUSED), JET_OFF, findings);
            }
            case CHANGING -> {
                low.leaveOut(situation);
                high.leaveOut(situation);
            }
        }
    }

    @Override
    public List<RunVerdict.Part> judge(RunSeen run, CriticalFindings findings) {
        RunVerdict.Mark loaded = low.ended(run, run.loadedPsi(), findings);
        RunVerdict.Mark unloaded = high.ended(run, run.highestPsi(), findings);
        boolean isSeen = run.figure(Measurand.UNLOADED).isPresent();
        List<RunVerdict.Part> parts = new ArrayList<>();
        parts.add(new RunVerdict.Part(Aspect.LOADED, loaded));
        if (isSeen || unloaded != RunVerdict.Mark.GOOD) {
            parts.add(new RunVerdict.Part(Aspect.UNLOADED, unloaded));
        }
        return parts;
    }

    /** True while a finding stands that the boosted pressure is low. */
    boolean isLow() {
        return low.isStanding();
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.BOOSTED);
    }

    @Override
    public void pause() {
        low.pause();
        high.pause();
    }

    @Override
    public void letGo(Rule rule, Situation situation, Findings findings) {
        low.letGo(rule, situation, findings);
        high.letGo(rule, situation, findings);
    }

    @Override
    public void keep(State state) {
        low.keep(state);
        high.keep(state);
    }
}
