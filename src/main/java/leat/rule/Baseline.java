package leat.rule;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Measurand;
import leat.signal.StateReader;
import leat.signal.StateWriter;

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

    public void save(StateWriter out) {
        out.putLong(learnedAtMicros);
        out.putInt(starts.size());
        starts.forEach(out::putLong);
        out.putInt(figures.size());
        figures.forEach(
                (measurand, usual) -> {
                    out.putText(measurand.key());
                    out.putDouble(usual.median());
                    out.putDouble(usual.spread());
                    out.putInt(usual.count());
                });
    }

    public static Baseline load(StateReader in) {
        long learnedAtMicros = in.getLong();
        List<Long> starts = new ArrayList<>();
        for (int left = in.getInt(); left > 0; left--) {
            starts.add(in.getLong());
        }
        Map<Measurand, Usual> figures = new EnumMap<>(Measurand.class);
        for (int left = in.getInt(); left > 0; left--) {
            figures.put(
                    measurand(in.getText()),
                    new Usual(in.getDouble(), in.getDouble(), in.getInt()));
        }
        return new Baseline(learnedAtMicros, starts, figures);
    }

    static Measurand measurand(String key) {
        return Measurand.byKey(key)
                .orElseThrow(
                        () -> new IllegalArgumentException("state has an unknown number " + key));
    }
}
