package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import leat.rule.Limit;
import leat.rule.Limits;

/**
 * Looks at limits side by side: which contradict one another, and which stand so close that they
 * will raise alarms all the time.
 *
 * @param limits as they hold for the site or for one machine
 * @param own those given at the place that is being checked; a pair of which neither is among them
 *     was checked elsewhere
 */
record LimitsCheck(GivenLimits limits, Set<Limit> own) {

    /** A set level this close to a limit crosses it in normal running, by our model runs. */
    private static final double TOO_CLOSE = 0.03;

    private static final List<Limit> AROUND_THE_SET_LEVEL =
            List.of(
                    Limit.LEVEL_WARNING,
                    Limit.LEVEL_ADVISORY,
                    Limit.LEVEL_HIGH_ADVISORY,
                    Limit.LEVEL_HIGH_WARNING);

    LimitsCheck {
        requireNonNull(limits, "limits");
        own = Set.copyOf(own);
    }

    static LimitsCheck of(GivenLimits limits, Set<Limit> own) {
        return new LimitsCheck(limits, own);
    }

    void report() {
        for (Limits.Contradiction pair : Limits.contradictions(limits.values())) {
            blame(pair.low(), pair.high()).ifPresent(limit -> contradiction(limit, pair));
        }
        double set = limits.value(Limit.LEVEL_SET);
        for (Limit limit : AROUND_THE_SET_LEVEL) {
            if (Math.abs(limits.value(limit) - set) <= TOO_CLOSE * limits.value(limit)) {
                blame(Limit.LEVEL_SET, limit).ifPresent(at -> tooClose(at, limit));
            }
        }
    }

    /** Of two limits the one that was given here; the later in the file if both were. */
    private Optional<Limit> blame(Limit one, Limit other) {
        if (own.contains(one) && own.contains(other)) {
            return Optional.of(line(one) > line(other) ? one : other);
        }
        return Optional.of(own.contains(one) ? one : other).filter(own::contains);
    }

    private int line(Limit limit) {
        return limits.given(limit).map(g -> g.at().spot().line()).orElse(0);
    }

    private void contradiction(Limit at, Limits.Contradiction pair) {
        boolean isLow = at == pair.low();
        Limit other = isLow ? pair.high() : pair.low();
        where(at)
                .wrong(
                        printed(at) + (isLow ? " is above " : " is below ") + told(other),
                        pair.low().key() + " must not be above " + pair.high().key());
    }

    private void tooClose(Limit at, Limit limit) {
        Limit other = at == limit ? Limit.LEVEL_SET : limit;
        where(at)
                .doubtful(
                        printed(at) + " is within 3 % of " + told(other),
                        "expect alarms in normal running: keep level.set further away from "
                                + limit.key());
    }

    private Cursor where(Limit limit) {
        return limits.given(limit).orElseThrow().at();
    }

    private String printed(Limit limit) {
        return LimitsReader.print(limit, limits.value(limit));
    }

    private String told(Limit limit) {
        String place =
                limits.given(limit).map(g -> "line " + g.at().spot().line()).orElse("its default");
        return limit.key() + " (" + printed(limit) + ", " + place + ")";
    }
}
