package leat.rule;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Measurand;

/**
 * What is usual for one machine, learned from good starts of its own. Immutable.
 *
 * @param learnedAtMicros when the last of these starts was measured, microseconds UTC
 * @param starts when the starts that it is made of began ({@code Startup.startedAtMicros}), in the
 *     order in which they were measured
 * @param figures what is usual of each measurand; one that most of the starts did not have is left
 *     out
 */
public record Baseline(long learnedAtMicros, List<Long> starts, Map<Measurand, Usual> figures) {

    public Baseline {
        starts = List.copyOf(starts);
        if (starts.isEmpty()) {
            throw new IllegalArgumentException("a baseline is made of starts");
        }
        EnumMap<Measurand, Usual> copy = new EnumMap<>(Measurand.class);
        figures.forEach((measurand, usual) -> copy.put(measurand, requireNonNull(usual)));
        figures = Collections.unmodifiableMap(copy);
    }

    /** Number of starts that it is made of. */
    public int count() {
        return starts.size();
    }

    public Optional<Usual> usual(Measurand measurand) {
        return Optional.ofNullable(figures.get(measurand));
    }
}
