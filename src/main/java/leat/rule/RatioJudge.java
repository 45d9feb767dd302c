package leat.rule;

import java.util.List;
import java.util.Set;
import leat.rule.Finding.Quantity;
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
    private final GradedLimits bars;

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
        bars =
                new GradedLimits(
                        Rule.RATIO, Channel.BOOSTED, Quantity.RATIO, List.of(critical, warning));
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        double inlet = situation.gauges().inlet().fiveSecondMean();
        if (!situation.isSteadyFor(armMicros)
                || inlet < minInletPsi
                || bars.isExplained(findings)) {
            pause();
            return;
        }
        double boosted = situation.gauges().boosted().fiveSecondMean();
        double ratio = boosted / inlet;
        for (GradedLimit bar : List.of(critical, warning)) {
            bar.latch()
                    .look(
                            situation.atMicros(),
                            bar.isBroken(ratio) && boosted < enoughPsi,
                            bar.isCleared(ratio) || boosted >= enoughClearPsi);
        }
        bars.tell(
                situation,
                ratio,
                GradedLimits.NOTHING,
                () -> List.of(Remark.of(Remark.Kind.RATIO_NOW, ratio)),
                findings);
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.INLET, Channel.BOOSTED);
    }

    @Override
    public void pause() {
        bars.pause();
    }

    @Override
    public void letGo(Rule rule, Situation situation, Findings findings) {
        bars.letGo(rule, situation, findings);
    }

    @Override
    public void keep(State state) {
        bars.keep(state);
    }
}
