package leat.rule;

import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.Supplier;
import leat.measure.Figure;
import leat.measure.absence.Absence;
import leat.phase.Phase;
import leat.signal.Channel;
import leat.wire.State;

/**
 * The graded limits of one rule together: the gravest broken one is what stands, and only a change
 * of it is told. Thread-confined.
 */
final class GradedLimits {

    /** Why a finding ends that nobody saw end. */
    static final List<Remark> AFRESH = List.of(Remark.of(Remark.Kind.AFRESH_AFTER_SERVICE));

    /** No further facts. */
    static final Supplier<List<Remark>> NOTHING = List::of;

    private static final long SOON_MICROS = 5_000_000;

    private final Rule rule;
    private final Channel channel;
    private final Finding.Quantity quantity;
    private final List<GradedLimit> gravestFirst;
    private Optional<Grade> standing = Optional.empty();

    GradedLimits(
            Rule rule, Channel channel, Finding.Quantity quantity, List<GradedLimit> gravestFirst) {
        this.rule = rule;
        this.channel = channel;
        this.quantity = quantity;
        this.gravestFirst = List.copyOf(gravestFirst);
    }

    /** Judges a value against every limit, unless a graver finding explains it. */
    void judge(Situation situation, double value, CriticalFindings findings) {
        judge(situation, value, NOTHING, findings);
    }

    /**
     * Likewise.
     *
     * @param remarks facts to a finding
     */
    void judge(
            Situation situation,
            double value,
            Supplier<List<Remark>> remarks,
            CriticalFindings findings) {
        judge(situation, value, Grade.ADVISORY, remarks, findings);
    }

    /**
     * Likewise.
     *
     * @param mildest grade whose limits are looked at, with the graver ones; the others wait
     * @param remarks facts to a finding
     */
    void judge(
            Situation situation,
            double value,
            Grade mildest,
            Supplier<List<Remark>> remarks,
            CriticalFindings findings) {
        if (isExplained(findings)) {
            pause();
            return;
        }
        for (GradedLimit limit : gravestFirst) {
            if (limit.grade().isAtLeast(mildest)) {
                limit.latch()
                        .look(situation.atMicros(), limit.isBroken(value), limit.isCleared(value));
            } else {
                limit.latch().pause();
            }
        }
        tell(situation, value, remarks, NOTHING, findings);
    }

    /** Whether a value breaks a limit. */
    boolean isBroken(double value) {
        return gravestFirst.stream().anyMatch(limit -> limit.isBroken(value));
    }

    /** True while a finding of this rule stands. */
    boolean isStanding() {
        return standing.isPresent();
    }

    /** This second says nothing of the rule: what has begun goes on after it. */
    void leaveOut(Situation situation) {
        gravestFirst.forEach(limit -> limit.latch().leaveOut(situation.atMicros()));
    }

    /**
     * Judges a run that has ended by its mean. A limit that the mean breaks for sure is taken as
     * broken for all of the run; one that stood and had not the time to clear clears if the mean is
     * good for sure.
     *
     * @param value the mean; may be absent
     */
    RunVerdict.Mark ended(RunSeen run, Figure value, CriticalFindings findings) {
        return ended(run, value, limit -> limit.isSurelyBroken(value), findings);
    }

    /**
     * Likewise.
     *
     * @param isSure whether a limit is broken for sure
     */
    RunVerdict.Mark ended(
            RunSeen run, Figure value, Predicate<GradedLimit> isSure, CriticalFindings findings) {
        if (!value.isPresent()) {
            return RunVerdict.Mark.NOT_JUDGED;
        }
        if (run.run().over() && !isExplained(findings)) {
            for (GradedLimit limit : gravestFirst) {
                if (isSure.test(limit)) {
                    limit.latch().activate(run.run().startedAtMicros());
                } else if (!limit.latch().couldClear() && limit.isSurelyCleared(value)) {
                    limit.latch().deactivate();
                }
            }
            tell(run.situation(), value.get(), run::remarks, NOTHING, findings);
        }
        return gravestFirst.stream()
                .filter(limit -> limit.isBroken(value.get()))
                .findFirst()
                .map(limit -> RunVerdict.Mark.of(limit.grade()))
                .orElse(RunVerdict.Mark.GOOD);
    }

    /** True while a CRITICAL finding explains what this rule would find: then it is not judged. */
    boolean isExplained(CriticalFindings findings) {
        return findings.isExplained(rule);
    }

    /**
     * Tells what has changed since it was last told. A grade that has gone is not followed by a
     * milder one that is about to go too, and a grade that has come waits for a graver one that is
     * about to come: a value that falls past all limits is called once.
     *
     * @param remarks facts to a finding; asked for only when it is told, not each second
     * @param now facts to its end
     */
    void tell(
            Situation situation,
            double value,
            Supplier<List<Remark>> remarks,
            Supplier<List<Remark>> now,
            Findings findings) {
        Optional<GradedLimit> gravest = gravestActive();
        Optional<Grade> grade = gravest.map(GradedLimit::grade);
        if (grade.equals(standing) || isGoing(gravest) || isComing(situation, gravest)) {
            return;
        }
        standing = grade;
        gravest.ifPresentOrElse(
                limit -> findings.found(finding(limit, situation, value, remarks.get())),
                () -> tellEnd(rule, channel, situation, now.get(), findings));
    }

    private Optional<GradedLimit> gravestActive() {
        for (GradedLimit limit : gravestFirst) {
            if (limit.latch().isActive()) {
                return Optional.of(limit);
            }
        }
        return Optional.empty();
    }

    /** Forgets what stands, if it is of this rule, and tells that it does. */
    void letGo(Rule which, Situation situation, Findings findings) {
        if (which != rule || standing.isEmpty()) {
            return;
        }
        giveOver();
        tellEnd(rule, channel, situation, AFRESH, findings);
    }

    /** Another one of the same rule speaks for this one from now on: it begins afresh. */
    void giveOver() {
        standing = Optional.empty();
        gravestFirst.forEach(limit -> limit.latch().reset());
    }

    /** A finding is over: tells it with what both gauges read now. */
    static void tellEnd(
            Rule rule, Channel channel, Situation situation, List<Remark> now, Findings findings) {
        findings.cleared(
                rule,
                channel,
                situation.atMicros(),
                gaugeNow(situation, Channel.INLET),
                gaugeNow(situation, Channel.BOOSTED),
                now);
    }

    private boolean isGoing(Optional<GradedLimit> gravest) {
        return gravest.isPresent() && standing.isPresent() && gravest.get().latch().isClearing();
    }

    private boolean isComing(Situation situation, Optional<GradedLimit> gravest) {
        if (gravest.isEmpty() || standing.isPresent()) {
            return false;
        }
        for (GradedLimit limit : gravestFirst) {
            if (limit == gravest.get()) {
                return false;
            }
            if (limit.latch().isComing(situation.atMicros(), SOON_MICROS)) {
                return true;
            }
        }
        return false;
    }

    private Finding finding(
            GradedLimit limit, Situation situation, double value, List<Remark> remarks) {
        return new Finding(
                rule,
                channel,
                limit.grade(),
                limit.latch().activeSince(),
                situation.atMicros(),
                quantity,
                value,
                limit.limit(),
                limit.sense(),
                gaugeNow(situation, Channel.INLET),
                gaugeNow(situation, Channel.BOOSTED),
                remarks);
    }

    static Figure gaugeNow(Situation situation, Channel channel) {
        if (channel == Channel.INLET && !situation.gauges().hasInlet()) {
            return Figure.absent(Absence.NO_INLET_GAUGE);
        }
        return situation.phase() == Phase.BLIND
                ? Figure.absent(Absence.NOT_BOTH_GAUGES)
                : Figure.of(situation.gauges().of(channel).secondMean());
    }

    /** Nothing can be judged now: delays start afresh, what stands stays. */
    void pause() {
        gravestFirst.forEach(limit -> limit.latch().pause());
    }

    void keep(State state) {
        state.part(
                rule.key(),
                part -> {
                    standing = part.keep("standing", Grade.class, standing);
                    gravestFirst.forEach(
                            limit -> part.part(limit.grade().name(), limit.latch()::keep));
                });
    }
}
