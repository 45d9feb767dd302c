package leat.rule;

import java.util.List;
import java.util.Set;
import leat.measure.DemandLevels;
import leat.measure.Measurand;
import leat.phase.Demand;
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
        DemandLevels levels = situation.levels();
        switch (levels.demand()) {
            case UNKNOWN ->
                    graded.judge(
                            situation,
                            situation.gauges().boosted().fiveSecondMean()
                                    - filtered.fiveSecondMean(),
                            findings);
            case DRAWN -> {
                if (levels.knowsFiltered(Demand.DRAWN)) {
                    double filteredPsi = levels.filteredPsi(Demand.DRAWN);
                    graded.judge(
                            situation, levels.boostedPsi(Demand.DRAWN) - filteredPsi, findings);
                }
            }
            case PAUSED, CHANGING -> graded.leaveOut(situation);
        }
    }

    @Override
    public List<RunVerdict.Part> judge(RunSeen run, CriticalFindings findings) {
        RunVerdict.Mark mark = graded.ended(run, run.figure(Measurand.FILTER_LOSS), findings);
        return List.of(new RunVerdict.Part(RunVerdict.Aspect.FILTERS, mark));
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.BOOSTED, Channel.FILTERED);
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
