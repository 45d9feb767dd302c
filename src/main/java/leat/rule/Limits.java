package leat.rule;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * The limits that one machine is judged by: every {@link Limit} with its value in psi, seconds, psi
 * per second, or a plain number. Immutable. Construction refuses a value outside its range and
 * limits that contradict one another.
 */
public final class Limits {

    public static final Limits DEFAULTS = new Limits(Map.of());

    /** Pairs that must stand in this order, the first below or equal to the second. */
    private static final List<List<Limit>> ORDER =
            List.of(
                    List.of(Limit.RATIO_CRITICAL, Limit.RATIO_WARNING),
                    List.of(Limit.RATIO_WARNING, Limit.RATIO_WARNING_CLEAR),
                    List.of(Limit.RATIO_CRITICAL, Limit.RATIO_CRITICAL_CLEAR),
                    List.of(Limit.LEVEL_WARNING, Limit.LEVEL_ADVISORY),
                    List.of(Limit.LEVEL_ADVISORY, Limit.LEVEL_HIGH_ADVISORY),
                    List.of(Limit.LEVEL_HIGH_ADVISORY, Limit.LEVEL_HIGH_WARNING),
                    List.of(Limit.RISE_ADVISORY, Limit.RISE_WARNING),
                    List.of(Limit.RISE_WARNING, Limit.RISE_CRITICAL),
                    List.of(Limit.RISE_CRITICAL, Limit.RISE_RELAXED_CRITICAL),
                    List.of(Limit.BASELINE_TOP_WARNING, Limit.BASELINE_TOP_ADVISORY),
                    List.of(Limit.BASELINE_RISE_ADVISORY, Limit.BASELINE_RISE_WARNING),
                    List.of(Limit.FILTER_ADVISORY, Limit.FILTER_WARNING),
                    List.of(Limit.SIGNAL_LOST_ADVISORY, Limit.SIGNAL_LOST_WARNING),
                    List.of(Limit.REST_CLEAR, Limit.REST_ADVISORY),
                    List.of(Limit.INLET_CRITICAL, Limit.INLET_WARNING),
                    List.of(Limit.INLET_WARNING, Limit.INLET_ADVISORY));

    private final double[] values;

    private Limits(Map<Limit, Double> changed) {
        values = new double[Limit.values().length];
        for (Limit limit : Limit.values()) {
            values[limit.ordinal()] = changed.getOrDefault(limit, limit.defaultValue());
        }
    }

    /**
     * The defaults with some of them replaced.
     *
     * @throws IllegalArgumentException naming the first value out of its range, or contradiction
     */
    public static Limits with(Map<Limit, Double> changed) {
        changed.forEach(Limits::requireInRange);
        Limits limits = new Limits(changed);
        for (Contradiction pair : contradictions(changed)) {
            Limit low = pair.low();
            Limit high = pair.high();
            throw new IllegalArgumentException(
                    "%s (%s) must not be above %s (%s)"
                            .formatted(low.key(), limits.get(low), high.key(), limits.get(high)));
        }
        return limits;
    }

    /** Whether each of these values is in its range, and no two limits contradict one another. */
    public static boolean areSound(Map<Limit, Double> changed) {
        return changed.entrySet().stream().allMatch(e -> isInRange(e.getKey(), e.getValue()))
                && contradictions(changed).isEmpty();
    }

    /** Every pair of limits that stands in the wrong order when these values are put in. */
    public static List<Contradiction> contradictions(Map<Limit, Double> changed) {
        Limits limits = new Limits(changed);
        return ORDER.stream()
                .map(pair -> new Contradiction(pair.get(0), pair.get(1)))
                .filter(pair -> limits.get(pair.low()) > limits.get(pair.high()))
                .toList();
    }

    /**
     * Two limits that contradict one another.
     *
     * @param low must not be above {@code high}, but is
     * @param high the other
     */
    public record Contradiction(Limit low, Limit high) {}

    private static void requireInRange(Limit limit, double value) {
        if (!isInRange(limit, value)) {
            throw new IllegalArgumentException(
                    "%s is %s, allowed is %s to %s"
                            .formatted(limit.key(), value, limit.min(), limit.max()));
        }
    }

    private static boolean isInRange(Limit limit, double value) {
        return value >= limit.min() && value <= limit.max();
    }

    /** In psi, seconds, psi per second, or a plain number, as its dimension says. */
    public double get(Limit limit) {
        return values[limit.ordinal()];
    }

    /** A limit of dimension TIME in microseconds. */
    public long micros(Limit limit) {
        if (limit.dimension() != Limit.Dimension.TIME) {
            throw new IllegalArgumentException(limit + " is no time");
        }
        return Math.round(get(limit) * 1e6);
    }

    /** From this boosted pressure on the set level counts as reached, and no ratio is judged. */
    public double levelReachedPsi() {
        return get(Limit.LEVEL_SET) - get(Limit.LEVEL_TOLERANCE);
    }

    /**
     * Without an inlet gauge, a boosted pressure above this is a booster's work. A booster doubles
     * its inlet at least ({@code ratio.warning}), so the water before it has half the level at
     * most.
     */
    public double boostedAlonePsi() {
        return get(Limit.RATIO_CRITICAL) * levelReachedPsi() / get(Limit.RATIO_WARNING);
    }

    /** A limit of dimension FLAG. */
    public boolean isSet(Limit limit) {
        return get(limit) != 0;
    }

    /** Whether an alarm of this finding stays, once it has gone, until somebody resets it. */
    public boolean latches(Finding finding) {
        return finding.rule() == Rule.INLET
                && finding.grade() == Grade.CRITICAL
                && isSet(Limit.INLET_LATCH);
    }

    /** What differs from the defaults. */
    public Map<Limit, Double> changed() {
        Map<Limit, Double> changed = new EnumMap<>(Limit.class);
        for (Limit limit : Limit.values()) {
            if (get(limit) != limit.defaultValue()) {
                changed.put(limit, get(limit));
            }
        }
        return changed;
    }
}
