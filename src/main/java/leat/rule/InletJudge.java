package leat.rule;

import java.util.List;
import java.util.Set;
import leat.measure.Measurand;
import leat.phase.Phase;
import leat.rule.Finding.Quantity;
import leat.rule.RunVerdict.Aspect;
import leat.signal.Channel;
import leat.wire.State;

/**
 * The inlet pressure while running: a starved booster runs dry (common practice, no source). A line
 * that is being filled draws more than one that runs, so that during the climb only the gravest
 * limit is looked at.
 */
final class InletJudge implements Judge {

    private final long armMicros;
    private final GradedLimits graded;

    InletJudge(Limits limits) {
        armMicros = limits.micros(Limit.INLET_ARM);
        long delay = limits.micros(Limit.INLET_DELAY);
        graded =
                new GradedLimits(
                        Rule.INLET,
                        Channel.INLET,
                        Quantity.PRESSURE_PSI,
                        List.of(
                                graded(
                                        Grade.CRITICAL,
                                        Limit.INLET_CRITICAL,
                                        limits,
                                        limits.micros(Limit.INLET_CRITICAL_DELAY)),
                                graded(Grade.WARNING, Limit.INLET_WARNING, limits, delay),
                                graded(Grade.ADVISORY, Limit.INLET_ADVISORY, limits, delay)));
    }

    private static GradedLimit graded(Grade grade, Limit limit, Limits limits, long delayMicros) {
        double psi = limits.get(limit);
        return GradedLimit.atLeast(
                grade,
                psi,
                psi + limits.get(Limit.INLET_DEADBAND),
                delayMicros,
                limits.micros(Limit.INLET_OFF_DELAY));
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        if (!situation.hasRunFor(armMicros) || situation.inDoubt()) {
            pause();
            return;
        }
        graded.judge(
                situation,
                situation.gauges().inlet().secondMean(),
                situation.phase() == Phase.RISE ? Grade.CRITICAL : Grade.ADVISORY,
                GradedLimits.NOTHING,
                findings);
    }

    @Override
    public List<RunVerdict.Part> judge(RunSeen run, CriticalFindings findings) {
        return List.of(
                new RunVerdict.Part(
                        Aspect.INLET,
                        graded.ended(run, run.figure(Measurand.INLET_RUNNING), findings)));
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.INLET);
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
