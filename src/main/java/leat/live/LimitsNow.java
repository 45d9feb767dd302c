package leat.live;

import java.util.List;
import leat.phase.Phase;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;

/**
 * Which limits apply to the pressures of a machine at a moment: as the rules ask for them, each in
 * its phase and so long after the start. Whether the jet is on is left out: of the boosted level
 * the low limits count with it on, the high ones with it off. Immutable.
 *
 * @param limits what the machine is judged by
 * @param phase what its line does
 * @param atMicros the moment, microseconds UTC
 */
record LimitsNow(Limits limits, PhaseNow phase, long atMicros) {

    /** From the lowest to the highest; none for a contact. */
    List<LimitNow> of(Channel channel) {
        return switch (channel) {
            case INLET -> inlet();
            case BOOSTED -> boosted();
            case FILTERED ->
                    isSteadyFor(Limit.LEVEL_ARM)
                            ? List.of(low(Grade.WARNING, Limit.LEVEL_WARNING))
                            : List.of();
            case RUNNING, VALVE, CUTTING -> List.of();
        };
    }

    /** While the line is filled only the gravest counts. */
    private List<LimitNow> inlet() {
        LimitNow critical = low(Grade.CRITICAL, Limit.INLET_CRITICAL);
        if (!hasRunFor(Limit.INLET_ARM)) {
            return List.of();
        }
        return phase.phase() == Phase.RISE
                ? List.of(critical)
                : List.of(
                        critical,
                        low(Grade.WARNING, Limit.INLET_WARNING),
                        low(Grade.ADVISORY, Limit.INLET_ADVISORY));
    }

    private List<LimitNow> boosted() {
        if (isSteadyFor(Limit.LEVEL_ARM)) {
            return List.of(
                    low(Grade.WARNING, Limit.LEVEL_WARNING),
                    low(Grade.ADVISORY, Limit.LEVEL_ADVISORY),
                    high(Grade.ADVISORY, Limit.LEVEL_HIGH_ADVISORY),
                    high(Grade.WARNING, Limit.LEVEL_HIGH_WARNING));
        }
        boolean isJudgedAtRest =
                phase.phase() == Phase.REST
                        && limits.isSet(Limit.REST_BLEEDS)
                        && phase.stoppedMicros().isPresent()
                        && lasts(phase.stoppedMicros().getAsLong(), Limit.REST_ARM);
        return isJudgedAtRest ? List.of(high(Grade.ADVISORY, Limit.REST_ADVISORY)) : List.of();
    }

    /**
     * Of boosted over inlet pressure.
     *
     * @param boostedPsi the level: where the set one is reached no ratio is asked for
     */
    List<LimitNow> ofBoost(double boostedPsi) {
        return boostedPsi < limits.levelReachedPsi()
                ? List.of(
                        low(Grade.CRITICAL, Limit.RATIO_CRITICAL),
                        low(Grade.WARNING, Limit.RATIO_WARNING))
                : List.of();
    }

    /** Whether a ratio of two pressures tells anything. */
    boolean tellsBoost(double inletPsi) {
        return isSteadyFor(Limit.RATIO_ARM) && inletPsi >= limits.get(Limit.RATIO_MIN_INLET);
    }

    private boolean isSteadyFor(Limit arm) {
        return phase.phase() == Phase.STEADY && hasRunFor(arm);
    }

    private boolean hasRunFor(Limit arm) {
        return phase.runningMicros().isPresent() && lasts(phase.runningMicros().getAsLong(), arm);
    }

    private boolean lasts(long sinceMicros, Limit arm) {
        return atMicros - sinceMicros >= limits.micros(arm);
    }

    private LimitNow low(Grade grade, Limit limit) {
        return new LimitNow(limit, grade, Sense.AT_LEAST, limits.get(limit));
    }

    private LimitNow high(Grade grade, Limit limit) {
        return new LimitNow(limit, grade, Sense.AT_MOST, limits.get(limit));
    }
}
