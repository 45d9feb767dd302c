package leat.rule;

import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import leat.measure.DemandLevels;
import leat.phase.Demand;
import leat.rule.Finding.Quantity;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.wire.State;

/**
 * What reaches the intensifier, where a gauge is wired after the filters: it needs as much as the
 * boosted level must be at least. While the boosted pressure is low itself, that alone is told: the
 * two are one alarm.
 */
final class FilteredLevelJudge implements Judge {

    private final long armMicros;
    private final long freshMicros;
    private final BooleanSupplier isBoostedLow;
    private final GradedLimits low;

    /**
     * @param isBoostedLow whether a finding stands that the boosted pressure is low
     */
    FilteredLevelJudge(Limits limits, BooleanSupplier isBoostedLow) {
        this.isBoostedLow = isBoostedLow;
        armMicros = limits.micros(Limit.LEVEL_ARM);
        freshMicros = limits.micros(Limit.SIGNAL_BLIND);
        long off = limits.micros(Limit.LEVEL_OFF_DELAY);
        low =
                new GradedLimits(
                        Rule.LEVEL_LOW,
                        Channel.FILTERED,
                        Quantity.PRESSURE_PSI,
                        List.of(LevelJudge.low(Grade.WARNING, Limit.LEVEL_WARNING, limits, off)));
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        Gauge filtered = situation.gauges().of(Channel.FILTERED);
        if (isBoostedLow.getAsBoolean()) {
            low.giveOver();
        } else if (!situation.isSteadyFor(armMicros)
                || !filtered.isFresh(situation.atMicros(), freshMicros)) {
            pause();
        } else {
            judge(situation, filtered, findings);
        }
    }

    private void judge(Situation situation, Gauge filtered, CriticalFindings findings) {
        DemandLevels levels = situation.levels();
        switch (levels.demand()) {
            case UNKNOWN -> low.judge(situation, filtered.fiveSecondMean(), findings);
            case DRAWN -> {
                if (levels.knowsFiltered(Demand.DRAWN)) {
                    double psi = levels.filteredPsi(Demand.DRAWN);
                    low.judge(situation, psi, LevelJudge.JET_ON, findings);
                }
            }
            case PAUSED, CHANGING -> low.leaveOut(situation);
        }
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.BOOSTED, Channel.FILTERED);
    }

    @Override
    public void pause() {
        low.pause();
    }

    @Override
    public void letGo(Rule rule, Situation situation, Findings findings) {
        low.letGo(rule, situation, findings);
    }

    @Override
    public void keep(State state) {
        state.part("filtered", low::keep);
    }
}
