package leat.rule;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import leat.measure.Figure;
import leat.measure.Startup;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.StartupVerdict.Outcome;
import leat.signal.Channel;
import leat.wire.State;

/**
 * The climb takes a couple of seconds; after service the first is slower until air has purged
 * (common practice, no published source). Judged once per start, as an event. Thread-confined.
 *
 * <p>A slow start is an advisory when two of the last three starts were slow, or as long as fewer
 * than three starts are known. The finding stands until a good start; one of a pressure that had
 * not risen eases when it has risen late. A pressure that still climbs when its time is over is
 * called then, and judged when it stands.
 *
 * <p>A machine that is known to be slower than most is given more time: so many times its own usual
 * rise, where that is more than the limit. Whether it has risen at all is judged the same.
 */
final class RiseJudge implements Judge {

    private static final int REMEMBERED = 3;
    private static final int SLOW_ENOUGH = 2;

    /** So long after the start it has been judged, if it could be. */
    private static final long JUDGED_MICROS = 20_000_000;

    private final Limits limits;
    private final boolean hasInlet;

    /** Holds once the pressure has risen late. */
    private final Latch late;

    private int known;
    private int slowBits;
    private long relaxedLeft;
    private long relaxedInAll;
    private Optional<Grade> standing = Optional.empty();

    /** What the last start that had not risen was given. */
    private double missedSeconds;

    /**
     * @param hasInlet whether the machine has a gauge before the booster
     */
    RiseJudge(Limits limits, boolean hasInlet) {
        this.limits = limits;
        this.hasInlet = hasInlet;
        missedSeconds = limits.get(Limit.RISE_CRITICAL);
        late = new Latch(limits.micros(Limit.RATIO_OFF_DELAY), 0);
    }

    /** The line was opened: the next starts are slow until the air has purged. */
    void serviced() {
        relaxedInAll = Math.round(limits.get(Limit.RISE_RELAXED_STARTS));
        relaxedLeft = relaxedInAll;
    }

    boolean isRelaxed() {
        return relaxedLeft > 0;
    }

    /** Time from a start by which the pressure must have risen. */
    long deadlineMicros() {
        return limits.micros(deadline());
    }

    private Limit deadline() {
        return isRelaxed() ? Limit.RISE_RELAXED_CRITICAL : Limit.RISE_CRITICAL;
    }

    /**
     * Judges a start as measured.
     *
     * @param overdue whether it was called while it still climbed
     * @param baseline what is usual for the machine, where that is known
     * @param findings told when the rule's grade changes
     */
    StartupVerdict judge(
            Startup startup, boolean overdue, Optional<Baseline> baseline, Findings findings) {
        boolean relaxed = isRelaxed();
        Limit deadline = deadline();
        relaxedLeft -= relaxed ? 1 : 0;
        if (!startup.risen()) {
            return notRisen(startup, deadline, findings);
        }
        if (isWeakAlone(startup)) {
            return StartupVerdict.of(
                    Outcome.NO_BOOST,
                    Remark.of(Remark.Kind.NO_BOOST_ALONE, startup.topPsi().get()));
        }
        if (hasNoBoost(startup)) {
            return StartupVerdict.of(
                    Outcome.NO_BOOST, Remark.of(Remark.Kind.NO_BOOST, startup.ratio().get()));
        }
        RiseLimit advisory = RiseLimit.advisory(limits, baseline);
        Figure rise = startup.riseSeconds();
        if (!rise.isPresent()) {
            List<Remark> noRiseTime = List.of(Remark.noRiseTime(rise));
            return startup.startTo90Seconds().orElse(Double.POSITIVE_INFINITY) <= advisory.seconds()
                    ? good(startup, fastEnough(startup), findings).with(noRiseTime)
                    : new StartupVerdict(Outcome.NOT_JUDGED, noRiseTime);
        }
        boolean slow = rise.get() > advisory.seconds();
        if (relaxed && slow) {
            return new StartupVerdict(Outcome.RELAXED, advisory.remarks(rise.get()))
                    .with(List.of(purging()));
        }
        RiseLimit warning = RiseLimit.warning(limits, baseline);
        if (overdue && standing.isPresent() && rise.get() <= warning.seconds()) {
            return late(startup, advisory.remarks(rise.get()), findings);
        }
        remember(slow);
        return slow
                ? slow(startup, advisory, warning, findings)
                : good(startup, advisory.remarks(rise.get()), findings);
    }

    /** The how manieth start after the service this one was. */
    private Remark purging() {
        return Remark.of(Remark.Kind.PURGING, relaxedInAll - relaxedLeft, relaxedInAll);
    }

    /** The whole of the climb took no longer than a rise may. */
    private static List<Remark> fastEnough(Startup startup) {
        return List.of(Remark.of(Remark.Kind.FAST_ENOUGH, startup.startTo90Seconds().get()));
    }

    /** The ratio's own rule calls; this start only must not pass for a good one. */
    private boolean hasNoBoost(Startup startup) {
        double enough = limits.levelReachedPsi();
        return startup.ratio().isPresent()
                && startup.ratio().get() < limits.get(Limit.RATIO_CRITICAL)
                && startup.topPsi().get() < enough;
    }

    /** Without an inlet gauge: no more than water has that passes a booster which stands still. */
    private boolean isWeakAlone(Startup startup) {
        return !hasInlet
                && startup.topPsi().isPresent()
                && startup.topPsi().get() <= limits.boostedAlonePsi();
    }

    private StartupVerdict good(Startup startup, List<Remark> now, Findings findings) {
        if (standing.isPresent()) {
            standing = Optional.empty();
            findings.cleared(
                    Rule.RISE,
                    Channel.BOOSTED,
                    startup.measuredAtMicros(),
                    startup.inletRunningPsi(),
                    startup.topPsi(),
                    now);
        }
        return new StartupVerdict(Outcome.GOOD, now);
    }

    private StartupVerdict slow(
            Startup startup, RiseLimit advisory, RiseLimit warning, Findings findings) {
        double rise = startup.riseSeconds().get();
        boolean very = rise > warning.seconds();
        RiseLimit limit = very ? warning : advisory;
        StartupVerdict verdict =
                new StartupVerdict(very ? Outcome.VERY_SLOW : Outcome.SLOW, limit.remarks(rise));
        boolean often = known < REMEMBERED || Integer.bitCount(slowBits) >= SLOW_ENOUGH;
        if (very || often || standing.isPresent()) {
            raise(
                    startup,
                    very ? Grade.WARNING : Grade.ADVISORY,
                    rise,
                    limit.seconds(),
                    limit.why().stream().toList(),
                    findings);
            return verdict;
        }
        return verdict.with(List.of(Remark.of(Remark.Kind.FIRST_SLOW)));
    }

    /** It rose quickly enough, but began to when its time was as good as over. */
    private StartupVerdict late(Startup startup, List<Remark> now, Findings findings) {
        remember(true);
        Remark late = Remark.of(Remark.Kind.RISEN_LATE);
        raise(
                startup,
                Grade.WARNING,
                startup.startTo90Seconds().orElse(missedSeconds),
                missedSeconds,
                List.of(late),
                findings);
        return new StartupVerdict(Outcome.VERY_SLOW, now).with(List.of(late));
    }

    private StartupVerdict notRisen(Startup startup, Limit deadline, Findings findings) {
        if (isStarved(startup)) {
            return StartupVerdict.of(
                    Outcome.NOT_RISEN, notRisen(startup), Remark.of(Remark.Kind.STARVED));
        }
        remember(true);
        call(startup, deadline, findings);
        return StartupVerdict.of(Outcome.NOT_RISEN, notRisen(startup));
    }

    /** Calls a start whose time is over; it is judged when it has come to a level or to an end. */
    void overdue(Startup soFar, Findings findings) {
        if (!isStarved(soFar)) {
            call(soFar, deadline(), findings);
        }
    }

    private void call(Startup startup, Limit deadline, Findings findings) {
        Remark notRisen = notRisen(startup);
        missedSeconds = limits.get(deadline);
        raise(
                startup,
                Grade.CRITICAL,
                notRisen.numbers().get(0),
                missedSeconds,
                List.of(notRisen),
                findings);
    }

    private static Remark notRisen(Startup startup) {
        double seconds = (startup.measuredAtMicros() - startup.startedAtMicros()) / 1e6;
        return Remark.of(Remark.Kind.NOT_RISEN, seconds);
    }

    /** The inlet's own rule calls: without water no booster lifts anything. */
    private boolean isStarved(Startup startup) {
        return startup.inletRunningPsi().isPresent()
                && startup.inletRunningPsi().get() < limits.get(Limit.INLET_CRITICAL);
    }

    private void raise(
            Startup startup,
            Grade grade,
            double seconds,
            double limit,
            List<Remark> remarks,
            Findings findings) {
        if (standing.equals(Optional.of(grade))) {
            return;
        }
        standing = Optional.of(grade);
        findings.found(
                new Finding(
                        Rule.RISE,
                        Channel.BOOSTED,
                        grade,
                        startup.startedAtMicros(),
                        startup.measuredAtMicros(),
                        Quantity.TIME_SECONDS,
                        seconds,
                        limit,
                        Sense.AT_MOST,
                        startup.inletRunningPsi(),
                        startup.topPsi(),
                        remarks));
    }

    private void remember(boolean slow) {
        known = Math.min(REMEMBERED, known + 1);
        slowBits = (slowBits << 1 | (slow ? 1 : 0)) & (1 << REMEMBERED) - 1;
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(Channel.INLET, Channel.BOOSTED);
    }

    @Override
    public void pause() {
        late.pause();
    }

    /** A pressure that had not risen in time may have risen since: nobody need stop it then. */
    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        long judged = Math.max(deadlineMicros(), JUDGED_MICROS);
        if (!situation.isSteadyFor(judged) || !standing.equals(Optional.of(Grade.CRITICAL))) {
            late.look(situation.atMicros(), false, true);
            return;
        }
        late.look(situation.atMicros(), isBoosted(situation), false);
        if (late.isActive()) {
            easeTo(Grade.WARNING, situation, findings);
        }
    }

    private boolean isBoosted(Situation situation) {
        double boosted = situation.gauges().boosted().fiveSecondMean();
        double inlet = situation.gauges().inlet().fiveSecondMean();
        return boosted >= limits.levelReachedPsi()
                || !hasInlet && boosted > limits.boostedAlonePsi()
                || inlet >= limits.get(Limit.RATIO_MIN_INLET)
                        && boosted > limits.get(Limit.RATIO_CRITICAL_CLEAR) * inlet;
    }

    private void easeTo(Grade grade, Situation situation, Findings findings) {
        standing = Optional.of(grade);
        findings.found(
                new Finding(
                        Rule.RISE,
                        Channel.BOOSTED,
                        grade,
                        situation.startMicros(),
                        situation.atMicros(),
                        Quantity.TIME_SECONDS,
                        (late.activeSince() - situation.startMicros()) / 1e6,
                        missedSeconds,
                        Sense.AT_MOST,
                        GradedLimits.gaugeNow(situation, Channel.INLET),
                        GradedLimits.gaugeNow(situation, Channel.BOOSTED),
                        List.of(Remark.of(Remark.Kind.RISEN_LATE))));
    }

    @Override
    public void letGo(Rule rule, Situation situation, Findings findings) {
        if (rule != Rule.RISE || standing.isEmpty()) {
            return;
        }
        standing = Optional.empty();
        late.reset();
        GradedLimits.tellEnd(Rule.RISE, Channel.BOOSTED, situation, GradedLimits.AFRESH, findings);
    }

    @Override
    public void keep(State state) {
        state.part(
                Rule.RISE.key(),
                rise -> {
                    rise.part("late", late::keep);
                    known = rise.keep("known", known);
                    slowBits = rise.keep("slowBits", slowBits);
                    relaxedLeft = rise.keep("relaxedLeft", relaxedLeft);
                    relaxedInAll = rise.keep("relaxedInAll", relaxedInAll);
                    standing = rise.keep("standing", Grade.class, standing);
                    missedSeconds = rise.keep("missedSeconds", missedSeconds);
                });
    }
}
