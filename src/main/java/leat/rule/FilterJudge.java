package leat.rule;

import java.util.List;
import java.util.Set;
import leat.measure.Figure;
import leat.measure.FilterLoss;
import leat.rule.Finding.Quantity;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.wire.State;

/**
 * The pressure lost over the filters while the intensifier draws water: clean cartridges take a few
 * psi, clogged ones starve the intensifier behind a sound booster (common practice, no published
 * source). Without flow nothing is lost, so seconds without demand say nothing and are left out.
 * Judged only where a gauge behind the filters is wired.
 */
final class FilterJudge implements Judge {

    private final long armMicros;
    private final long freshMicros;
    private final GradedLimits graded;
    private final FilterLoss loss = new FilterLoss();

    FilterJudge(Limits limits) {
        armMicros = limits.micros(Limit.LEVEL_ARM);
        freshMicros = limits.micros(Limit.SIGNAL_BLIND);
        graded =
                new GradedLimits(
                        Rule.FILTER_LOSS,
                        Channel.FILTERED,
                        Quantity.PRESSURE_PSI,
                        List.of(
                                graded(Grade.WARNING, Limit.FILTER_WARNING, limits),
                                graded(Grade.ADVISORY, Limit.FILTER_ADVISORY, limits)));
    }

    private static GradedLimit graded(Grade grade, Limit limit, Limits limits) {
        double psi = limits.get(limit);
        return GradedLimit.atMost(
                grade,
                psi,
                psi - limits.get(Limit.FILTER_DEADBAND),
                limits.micros(Limit.FILTER_DELAY),
                limits.micros(Limit.LEVEL_OFF_DELAY));
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        Gauge filtered = situation.gauges().of(Channel.FILTERED);
        if (!situation.isSteadyFor(armMicros)
                || !filtered.isFresh(situation.atMicros(), freshMicros)) {
            pause();
            return;
        }
        loss.add(situation.gauges().boosted().secondMean() - filtered.secondMean());
        Figure psi = loss.psi();
        if (psi.isPresent()) {
            graded.judge(situation, psi.get(), findings);
        }
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.BOOSTED, Channel.FILTERED);
    }

    @Override
    public void pause() {
        loss.clear();
        graded.pause();
    }

    @Override
    public void letGo(Rule rule, Situation situation, Findings findings) {
        graded.letGo(rule, situation, findings);
    }

    @Override
    public void keep(State state) {
        graded.keep(state);
        state.part("filterLoss", loss::keep);
    }
}
