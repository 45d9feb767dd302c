package leat.rule;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import leat.measure.Measurand;

/**
 * What a rise may take: the limit, or so many times what the machine's own takes, where that is
 * more.
 *
 * @param seconds the last rise that breaks nothing
 * @param why what it follows from, where it is not the limit itself
 */
public record RiseLimit(double seconds, Optional<Remark> why) {

    /** Above it a rise is slow. */
    public static RiseLimit advisory(Limits limits, Optional<Baseline> baseline) {
        return of(limits, Limit.RISE_ADVISORY, Limit.BASELINE_RISE_ADVISORY, baseline);
    }

    /** Above it a rise is very slow. */
    public static RiseLimit warning(Limits limits, Optional<Baseline> baseline) {
        return of(limits, Limit.RISE_WARNING, Limit.BASELINE_RISE_WARNING, baseline);
    }

    private static RiseLimit of(
            Limits limits, Limit limit, Limit factor, Optional<Baseline> baseline) {
        double own = baseline.flatMap(b -> b.usual(Measurand.RISE)).map(Usual::median).orElse(0.0);
        double times = limits.get(factor);
        return times * own <= limits.get(limit)
                ? new RiseLimit(limits.get(limit), Optional.empty())
                : new RiseLimit(
                        times * own,
                        Optional.of(
                                Remark.of(Remark.Kind.OWN_RISE, times, own, limits.get(limit))));
    }

    /** The rise beside what it may take. */
    List<Remark> remarks(double riseSeconds) {
        return Stream.concat(
                        Stream.of(Remark.of(Remark.Kind.RISE_NOW, riseSeconds, seconds)),
                        why.stream())
                .toList();
    }
}
