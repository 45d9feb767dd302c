package leat.rule;

import java.util.List;
import java.util.Set;
import leat.rule.Finding.Quantity;
import leat.signal.Channel;
import leat.signal.Gauges.Switch;
import leat.wire.State;

/**
 * With the water shut the boosted gauge reads 0; inlet pressure there means that the shut-off valve
 * leaks through (common practice, no published source). Air and a slow bleed delay the fall, so a
 * pressure that still falls is not judged.
 */
final class RestJudge implements Judge {

    private static final int SETTLED_SECONDS = 10;

    /** The share of the inlet pressure must shrink by this much before the warning clears. */
    private static final double SHARE_DEADBAND = 0.05;

    private final boolean bleeds;
    private final long armMicros;
    private final double fallingPsiPerSecond;
    private final double minInletPsi;
    private final double share;
    private final double boost;
    private final double boostClear;
    private final GradedLimit leaksThrough;
    private final GradedLimit pressureLeft;
    private final GradedLimits graded;

    RestJudge(Limits limits) {
        bleeds = limits.isSet(Limit.REST_BLEEDS);
        armMicros = limits.micros(Limit.REST_ARM);
        fallingPsiPerSecond = limits.get(Limit.REST_FALLING);
        minInletPsi = limits.get(Limit.REST_MIN_INLET);
        share = limits.get(Limit.REST_WARNING_SHARE);
        boost = limits.get(Limit.RATIO_CRITICAL);
        boostClear = limits.get(Limit.RATIO_CRITICAL_CLEAR);
        double psi = limits.get(Limit.REST_ADVISORY);
        double clear = limits.get(Limit.REST_CLEAR);
        long on = limits.micros(Limit.REST_DELAY);
        long off = limits.micros(Limit.REST_OFF_DELAY);
        leaksThrough = GradedLimit.atMost(Grade.WARNING, psi, clear, on, off);
        pressureLeft = GradedLimit.atMost(Grade.ADVISORY, psi, clear, on, off);
        graded =
                new GradedLimits(
                        Rule.REST,
                        Channel.BOOSTED,
                        Quantity.PRESSURE_PSI,
                        List.of(leaksThrough, pressureLeft));
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        double boosted = situation.gauges().boosted().secondMean();
        if (!bleeds) {
            letGo(situation, boosted, findings);
            return;
        }
        boolean waterOpen = situation.gauges().contact(Channel.VALVE) == Switch.ON;
        if (waterOpen || !situation.hasRestedFor(armMicros)) {
            pause();
            return;
        }
        double inlet = situation.gauges().inlet().secondMean();
        boolean stands =
                pressureLeft.isBroken(boosted)
                        && situation.boostedSeconds().fallPerSecond(SETTLED_SECONDS)
                                < fallingPsiPerSecond;
        boolean gone = pressureLeft.isCleared(boosted);
        boolean nearInlet =
                inlet >= minInletPsi && boosted >= share * inlet && boosted <= boost * inlet;
        boolean farFromInlet =
                inlet < minInletPsi
                        || boosted < (share - SHARE_DEADBAND) * inlet
                        || boosted > boostClear * inlet;
        look(leaksThrough, situation, stands && nearInlet, gone || farFromInlet);
        look(pressureLeft, situation, stands, gone);
        graded.tell(
                situation,
                boosted,
                () -> doubt(situation, nearInlet || mayBeSupply(situation, boosted)),
                GradedLimits.NOTHING,
                findings);
    }

    private static void look(GradedLimit limit, Situation situation, boolean bad, boolean good) {
        limit.latch().look(situation.atMicros(), bad, good);
    }

    /** A line that keeps its pressure is not judged; what stood before it was known goes. */
    private void letGo(Situation situation, double boosted, Findings findings) {
        look(leaksThrough, situation, false, true);
        look(pressureLeft, situation, false, true);
        graded.tell(
                situation,
                boosted,
                GradedLimits.NOTHING,
                () -> List.of(Remark.of(Remark.Kind.NO_BLEED)),
                findings);
    }

    /** Without an inlet gauge any pressure that a supply can have may be the supply's. */
    private boolean mayBeSupply(Situation situation, double boosted) {
        return !situation.gauges().hasInlet() && boosted >= minInletPsi;
    }

    /** What else inlet pressure at rest can mean on a machine that is wired like this one. */
    private static List<Remark> doubt(Situation situation, boolean nearInlet) {
        if (!nearInlet || situation.gauges().contact(Channel.VALVE) != Switch.UNKNOWN) {
            return List.of();
        }
        boolean mayRun = situation.gauges().contact(Channel.RUNNING) == Switch.UNKNOWN;
        return List.of(Remark.of(mayRun ? Remark.Kind.NO_RUN_SIGNAL : Remark.Kind.NO_VALVE_SIGNAL));
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
