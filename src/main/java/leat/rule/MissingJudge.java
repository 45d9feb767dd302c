package leat.rule;

import java.util.List;
import java.util.Optional;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.wire.State;

/**
 * Whether a channel speaks: silent for a time, or a pressure that breaks off again and again, told
 * by the share of a minute's readings that is lost. Thread-confined.
 */
final class MissingJudge {

    /** A share goes when it has fallen to this part of its limit: own choice. */
    private static final double GONE = 0.5;

    private final Channel channel;
    private final double missingSeconds;
    private final double warningShare;
    private final double advisoryShare;
    private final Latch silent;
    private final Latch warning;
    private final Latch advisory;
    private Optional<Grade> standing = Optional.empty();

    MissingJudge(Channel channel, Limits limits) {
        this.channel = channel;
        missingSeconds = limits.get(Limit.SIGNAL_MISSING);
        warningShare = limits.get(Limit.SIGNAL_LOST_WARNING);
        advisoryShare = limits.get(Limit.SIGNAL_LOST_ADVISORY);
        long off = limits.micros(Limit.SIGNAL_OFF_DELAY);
        silent = new Latch(limits.micros(Limit.SIGNAL_MISSING), off);
        warning = new Latch(0, off);
        advisory = new Latch(0, off);
    }

    /** True while it has been silent so long that this is told. */
    boolean isSilent() {
        return silent.isActive();
    }

    /**
     * A second has passed.
     *
     * @param watchedMicros since when somebody has listened
     * @param share of a pressure's readings that was lost in the last minute
     */
    void tick(
            Situation situation, Gauge gauge, long watchedMicros, double share, Findings findings) {
        long now = situation.atMicros();
        long since = sinceMicros(gauge, watchedMicros);
        long silence = since == Gauge.NEVER ? 0 : now - since;
        boolean speaks = !gauge.isLost() && silence < silent.onMicros();
        silent.look(now, since, speaks);
        warning.look(now, share > warningShare, speaks && share < GONE * warningShare);
        advisory.look(now, share > advisoryShare, speaks && share < GONE * advisoryShare);
        if (silent.isActive()) {
            tell(situation, Grade.WARNING, silent, silence / 1e6, gauge, findings);
        } else if (warning.isActive()) {
            tell(situation, Grade.WARNING, warning, share, gauge, findings);
        } else if (advisory.isActive()) {
            tell(situation, Grade.ADVISORY, advisory, share, gauge, findings);
        } else if (standing.isPresent()) {
            standing = Optional.empty();
            GradedLimits.tellEnd(Rule.SIGNAL_MISSING, channel, situation, List.of(), findings);
        }
    }

    private long sinceMicros(Gauge gauge, long watchedMicros) {
        long since = Gauge.NEVER;
        if (gauge.isLost()) {
            since = gauge.lostSinceMicros();
            since =
                    gauge.latestMicros() == Gauge.NEVER
                            ? since
                            : Math.min(since, gauge.latestMicros());
        } else if (channel.isPressure()) {
            since = gauge.latestMicros();
        }
        return since == Gauge.NEVER ? since : Math.max(since, watchedMicros);
    }

    private void tell(
            Situation situation,
            Grade grade,
            Latch latch,
            double measured,
            Gauge gauge,
            Findings findings) {
        if (standing.equals(Optional.of(grade)) || standing.isPresent() && latch.isClearing()) {
            return;
        }
        standing = Optional.of(grade);
        boolean byTime = latch == silent;
        double share = grade == Grade.WARNING ? warningShare : advisoryShare;
        findings.found(
                new Finding(
                        Rule.SIGNAL_MISSING,
                        channel,
                        grade,
                        latch.activeSince(),
                        situation.atMicros(),
                        byTime ? Quantity.TIME_SECONDS : Quantity.RATIO,
                        measured,
                        byTime ? missingSeconds : share,
                        Sense.AT_MOST,
                        GradedLimits.gaugeNow(situation, Channel.INLET),
                        GradedLimits.gaugeNow(situation, Channel.BOOSTED),
                        byTime ? why(gauge) : List.of()));
    }

    private static List<Remark> why(Gauge gauge) {
        return gauge.isLost()
                ? Remark.reported(gauge.lostReason())
                : List.of(Remark.of(Remark.Kind.NO_PRESENT_TIME));
    }

    void pause() {
        silent.pause();
        warning.pause();
        advisory.pause();
    }

    void keep(State state) {
        state.part(
                Rule.SIGNAL_MISSING.key(),
                part -> {
                    standing = part.keep("standing", Grade.class, standing);
                    part.part(Grade.WARNING.name(), silent::keep);
                    part.part("shareWarning", warning::keep);
                    part.part("shareAdvisory", advisory::keep);
                });
    }
}
