package leat.rule;

import java.util.List;
import java.util.Set;
import leat.measure.DemandLevels;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.phase.Demand;
import leat.rule.Finding.Quantity;
import leat.rule.RunVerdict.Aspect;
import leat.signal.Channel;
import leat.wire.State;

/**
 * A booster should at least double the inlet gauge pressure (common practice, no published source).
 * Where the supply is high and a regulator holds the level, reaching the set level is enough.
 */
final class RatioJudge implements Judge {

    private final double minInletPsi;
    private final double enoughPsi;
    private final double enoughClearPsi;
    private final long armMicros;
    private final GradedLimit critical;
    private final GradedLimit warning;
    private final GradedLimits graded;

    RatioJudge(Limits limits) {
        minInletPsi = limits.get(Limit.RATIO_MIN_INLET);
        enoughPsi = limits.levelReachedPsi();
        enoughClearPsi = enoughPsi + limits.get(Limit.LEVEL_DEADBAND);
        armMicros = limits.micros(Limit.RATIO_ARM);
        long off = limits.micros(Limit.RATIO_OFF_DELAY);
        critical =
                GradedLimit.atLeast(
                        Grade.CRITICAL,
                        limits.get(Limit.RATIO_CRITICAL),
                        limits.get(Limit.RATIO_CRITICAL_CLEAR),
                        limits.micros(Limit.RATIO_CRITICAL_DELAY),
                        off);
        warning =
                GradedLimit.atLeast(
                        Grade.WARNING,
                        limits.get(Limit.RATIO_WARNING),
                        limits.get(Limit.RATIO_WARNING_CLEAR),
                        limits.micros(Limit.RATIO_WARNING_DELAY),
                        off);
        graded =
                new GradedLimits(
                        Rule.RATIO, Channel.BOOSTED, Quantity.RATIO, List.of(critical, warning));
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        DemandLevels levels = situation.levels();
        switch (levels.demand()) {
            case UNKNOWN ->
                    judge(
                            situation,
                            situation.gauges().boosted().fiveSecondMean(),
                            situation.gauges().inlet().fiveSecondMean(),
                            findings);
            case DRAWN ->
                    judge(
                            situation,
                            levels.boostedPsi(Demand.DRAWN),
                            levels.inletPsi(Demand.DRAWN),
                            findings);
            case PAUSED, CHANGING -> graded.leaveOut(situation);
        }
    }

    private void judge(
            Situation situation, double boosted, double inlet, CriticalFindings findings) {
        if (!situation.isSteadyFor(armMicros)
                || inlet < minInletPsi
                || graded.isExplained(findings)) {
            pause();
            return;
        }
        double ratio = boosted / inlet;
        for (GradedLimit limit : List.of(critical, warning)) {
            limit.latch()
                    .look(
                            situation.atMicros(),
                            limit.isBroken(ratio) && boosted < enoughPsi,
                            limit.isCleared(ratio) || boosted >= enoughClearPsi);
        }
        graded.tell(
                situation,
                ratio,
                GradedLimits.NOTHING,
                () -> List.of(Remark.of(Remark.Kind.RATIO_NOW, ratio)),
                findings);
    }

    @Override
    public List<RunVerdict.Part> judge(RunSeen run, CriticalFindings findings) {
        Figure ratio = run.figure(Measurand.RATIO);
        Figure level = run.loadedPsi();
        RunVerdict.Mark mark =
                graded.ended(
                        run,
                        ratio,
                        limit -> limit.isSurelyBroken(ratio) && isSurelyTooLow(level),
                        findings);
        boolean isEnough = ratio.isPresent() && level.isPresent() && level.get() >= enoughPsi;
        return List.of(new RunVerdict.Part(Aspect.RATIO, isEnough ? RunVerdict.Mark.GOOD : mark));
    }

    private boolean isSurelyTooLow(Figure level) {
        return level.isPresent() && level.get() + level.uncertainty().orElse(0) < enoughPsi;
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.INLET, Channel.BOOSTED);
    }

    @Override
    public void pause() {
        graded.pause();
    }

    @Override
    public void letGo(Rule rule, Situation situation, Findings findings) {
        graded.letGo(rule, situation, findings);
    }

    @Override
    public void keep(State state) {
        graded.keep(state);
    }
}
