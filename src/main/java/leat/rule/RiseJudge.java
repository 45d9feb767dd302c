package leat.rule;

import java.util.Locale;
import java.util.Optional;
import leat.measure.Figure;
import leat.measure.Startup;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.StartupVerdict.Outcome;
import leat.signal.Channel;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * The climb takes a couple of seconds; after service the first is slower until air has purged
 * (common practice, no published source). Judged once per start, as an event. Thread-confined.
 *
 * <p>A slow start is an advisory when two of the last three starts were slow, or as long as fewer
 * than three starts are known. The finding stands until a good start.
 */
public final class RiseJudge {

    private static final int REMEMBERED = 3;
    private static final int SLOW_ENOUGH = 2;

    private final Limits limits;
    private int known;
    private int slowBits;
    private long relaxedLeft;
    private long relaxedInAll;
    private Optional<Grade> standing = Optional.empty();

    public RiseJudge(Limits limits) {
        this.limits = limits;
    }

    /** The line was opened: the next starts are slow until the air has purged. */
    public void serviced() {
        relaxedInAll = Math.round(limits.get(Limit.RISE_RELAXED_STARTS));
        relaxedLeft = relaxedInAll;
    }

    /** Time from a start by which the pressure must have risen. */
    public long deadlineMicros() {
        return limits.micros(relaxedLeft > 0 ? Limit.RISE_RELAXED_CRITICAL : Limit.RISE_CRITICAL);
    }

    /**
     * Judges a start.
     *
     * @param startup as measured
     * @param findings told when the rule's grade changes
     */
    public StartupVerdict judge(Startup startup, Findings findings) {
        boolean relaxed = relaxedLeft > 0;
        String which =
                relaxed ? "start " + (relaxedInAll - relaxedLeft + 1) + " of " + relaxedInAll : "";
        relaxedLeft -= relaxed ? 1 : 0;
        if (!startup.risen()) {
            return notRisen(startup, findings);
        }
        if (hasNoBoost(startup)) {
            return new StartupVerdict(
                    Outcome.NO_BOOST,
                    String.format(
                            Locale.ROOT, "no boost: ratio %.2f at the top", startup.ratio().get()));
        }
        Figure rise = startup.riseSeconds();
        if (!rise.isPresent()) {
            return new StartupVerdict(Outcome.NOT_JUDGED, "not judged: " + rise.absentBecause());
        }
        double advisory = limits.get(Limit.RISE_ADVISORY);
        boolean slow = rise.get() > advisory;
        if (relaxed && slow) {
            return new StartupVerdict(
                    Outcome.RELAXED,
                    words(rise.get(), advisory)
                            + "; only noted: "
                            + which
                            + " after service, air may still purge");
        }
        remember(slow);
        return slow ? slow(startup, findings) : good(startup, findings);
    }

    /** The ratio's own rule calls; this start only must not pass for a good one. */
    private boolean hasNoBoost(Startup startup) {
        double enough = limits.get(Limit.LEVEL_SET) - limits.get(Limit.LEVEL_TOLERANCE);
        return startup.ratio().isPresent()
                && startup.ratio().get() < limits.get(Limit.RATIO_CRITICAL)
                && startup.topPsi().get() < enough;
    }

    private StartupVerdict good(Startup startup, Findings findings) {
        String words = words(startup.riseSeconds().get(), limits.get(Limit.RISE_ADVISORY));
        if (standing.isPresent()) {
            standing = Optional.empty();
            findings.cleared(
                    Rule.RISE,
                    Channel.BOOSTED,
                    startup.measuredAtMicros(),
                    startup.inletRunningPsi(),
                    startup.topPsi(),
                    words);
        }
        return new StartupVerdict(Outcome.GOOD, words);
    }

    private StartupVerdict slow(Startup startup, Findings findings) {
        double rise = startup.riseSeconds().get();
        boolean very = rise > limits.get(Limit.RISE_WARNING);
        Limit limit = very ? Limit.RISE_WARNING : Limit.RISE_ADVISORY;
        String words = words(rise, limits.get(limit));
        boolean often = known < REMEMBERED || Integer.bitCount(slowBits) >= SLOW_ENOUGH;
        if (very || often || standing.isPresent()) {
            raise(
                    startup,
                    very ? Grade.WARNING : Grade.ADVISORY,
                    rise,
                    limits.get(limit),
                    "",
                    findings);
        } else {
            words += "; no alarm yet: one slow start of the last three";
        }
        return new StartupVerdict(very ? Outcome.VERY_SLOW : Outcome.SLOW, words);
    }

    private StartupVerdict notRisen(Startup startup, Findings findings) {
        remember(true);
        double seconds = (startup.measuredAtMicros() - startup.startedAtMicros()) / 1e6;
        double limit = limits.get(Limit.RISE_CRITICAL);
        String words = String.format(Locale.ROOT, "not risen within %.1f s of the start", seconds);
        raise(startup, Grade.CRITICAL, seconds, limit, words, findings);
        return new StartupVerdict(Outcome.NOT_RISEN, words);
    }

    private void raise(
            Startup startup,
            Grade grade,
            double seconds,
            double limit,
            String detail,
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
                        detail));
    }

    private void remember(boolean slow) {
        known = Math.min(REMEMBERED, known + 1);
        slowBits = (slowBits << 1 | (slow ? 1 : 0)) & (1 << REMEMBERED) - 1;
    }

    private static String words(double seconds, double limit) {
        return String.format(Locale.ROOT, "rise %.2f s, limit %.1f s", seconds, limit);
    }

    public void save(StateWriter out) {
        out.putInt(known);
        out.putInt(slowBits);
        out.putLong(relaxedLeft);
        out.putLong(relaxedInAll);
        out.putInt(standing.map(Grade::ordinal).orElse(-1));
    }

    public void load(StateReader in) {
        known = in.getInt();
        slowBits = in.getInt();
        relaxedLeft = in.getLong();
        relaxedInAll = in.getLong();
        int ordinal = in.getInt();
        standing = ordinal < 0 ? Optional.empty() : Optional.of(Grade.values()[ordinal]);
    }
}
