package leat.rule;

import java.util.List;
import java.util.Set;
import leat.rule.Finding.Quantity;
import leat.signal.Channel;
import leat.wire.State;

/**
 * The boosted level while steady: about 100 psi is good, at least 80, no need to go above about 120
 * (common practice, no published source).
 */
final class LevelJudge implements Judge {

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

    private static GradedLimit low(Grade grade, Limit limit, Limits limits, long off) {
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
        double boosted = situation.gauges().boosted().fiveSecondMean();
        low.judge(situation, boosted, findings);
        high.judge(situation, boosted, findings);
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
