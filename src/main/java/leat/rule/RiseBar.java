package leat.rule;

import java.util.Locale;
import java.util.Optional;
import leat.measure.Measurand;

/**
 * What a rise may take: the limit, or so many times what the machine's own takes, where that is
 * more.
 *
 * @param seconds the last rise that breaks nothing
 * @param why what it follows from, where it is not the limit itself; else empty
 */
public record RiseBar(double seconds, String why) {

    /** Above it a rise is slow. */
    public static RiseBar advisory(Limits limits, Optional<Baseline> baseline) {
        return of(limits, Limit.RISE_ADVISORY, Limit.BASELINE_RISE_ADVISORY, baseline);
    }

    /** Above it a rise is very slow. */
    public static RiseBar warning(Limits limits, Optional<Baseline> baseline) {
        return of(limits, Limit.RISE_WARNING, Limit.BASELINE_RISE_WARNING, baseline);
    }

    private static RiseBar of(
            Limits limits, Limit limit, Limit factor, Optional<Baseline> baseline) {
        double own = baseline.flatMap(b -> b.usual(Measurand.RISE)).map(Usual::median).orElse(0.0);
        double times = limits.get(factor);
        return times * own <= limits.get(limit)
                ? new RiseBar(limits.get(limit), "")
                : new RiseBar(
                        times * own,
                        String.format(
                                Locale.ROOT,
                                "%.1f times its own rise of %.2f s, instead of %.1f s",
                                times,
                                own,
                                limits.get(limit)));
    }

    /** The rise beside what it may take. */
    public String words(double riseSeconds) {
        String words =
                String.format(Locale.ROOT, "rise %.2f s, limit %.1f s", riseSeconds, seconds);
        return why.isEmpty() ? words : words + " (" + why + ")";
    }
}
