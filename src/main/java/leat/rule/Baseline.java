package leat.rule;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Measurand;

/**
 * What is usual for one machine, learned from good starts of its own and what followed them.
 * Immutable.
 *
 * @param learnedAtMicros when the last of these starts was measured, microseconds UTC
 * @param starts when the starts that it is made of began ({@code Startup.startedAtMicros}), in the
 *     order in which they were measured
 * @param figures what is usual of each measurand of a start and of the stop after it; one that most
 *     of the starts did not have is left out
 * @param runs likewise of the runs that followed; empty where a leat learned that knew none
 */
public record Baseline(
        long learnedAtMicros,
        List<Long> starts,
        Map<Measurand, Usual> figures,
        Map<Measurand, Usual> runs) {

    public Baseline {
        starts = List.copyOf(starts);
        if (starts.isEmpty()) {
            throw new IllegalArgumentException("a baseline is made of starts");
        }
        figures = copy(figures);
        runs = copy(runs);
    }

    /** One of which only the starts are known. */
    public Baseline(long learnedAtMicros, List<Long> starts, Map<Measurand, Usual> figures) {
        this(learnedAtMicros, starts, figures, Map.of());
    }

    private static Map<Measurand, Usual> copy(Map<Measurand, Usual> figures) {
        EnumMap<Measurand, Usual> copy = new EnumMap<>(Measurand.class);
        figures.forEach((measurand, usual) -> copy.put(measurand, requireNonNull(usual)));
        return Collections.unmodifiableMap(copy);
    }

    /** Number of starts that it is made of. */
    public int count() {
        return starts.size();
    }

    /** Of a start, or of the stop after it. */
    public Optional<Usual> usual(Measurand measurand) {
        return Optional.ofNullable(figures.get(measurand));
    }

    /**
     * What is usual on such an occasion; of a run that of a start where no runs are known.
     *
     * <p>A leat of before knew one level alone, the top. Where it saw the drop under strokes in
     * most starts, that was the level under load.
     */
    Optional<Usual> usual(Seen.Of of, Measurand measurand) {
        if (of == Seen.Of.RUN && runs.containsKey(measurand)) {
            return Optional.of(runs.get(measurand));
        }
        boolean isOfBefore =
                measurand == Measurand.LOADED
                        && !figures.containsKey(measurand)
                        && figures.containsKey(Measurand.DROP);
        return usual(isOfBefore ? Measurand.TOP : measurand);
    }
}
