package leat.rule;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.wire.State;

/**
 * How often running a machine has differed, and in which way, on occasions of one kind.
 * Thread-confined.
 */
final class Tally {

    private final Map<Deviation, Long> running = new EnumMap<>(Deviation.class);
    private final Map<Deviation, Long> sinceMicros = new EnumMap<>(Deviation.class);

    /** What has differed often enough, as it last did. */
    private final Map<Deviation, Difference> enough = new EnumMap<>(Deviation.class);

    void forget() {
        running.clear();
        sinceMicros.clear();
        enough.clear();
    }

    /**
     * Counts an occasion. A run that lasts is none yet, but what speaks at once speaks.
     *
     * @param compared in what it differs and in what not; what cannot be told is not in it
     * @param needed so many running must just differ
     */
    void count(List<Difference> compared, Seen seen, long needed) {
        for (Difference difference : compared) {
            if (!seen.over()) {
                if (difference.isOn() && difference.needed(needed) == 1) {
                    tell(difference, seen);
                }
            } else if (difference.isOn()) {
                long so = running.merge(difference.deviation(), 1L, Long::sum);
                sinceMicros.putIfAbsent(difference.deviation(), seen.fromMicros());
                if (so >= difference.needed(needed) || isEnough(difference)) {
                    tell(difference, seen);
                }
            } else {
                running.remove(difference.deviation());
                sinceMicros.remove(difference.deviation());
                enough.remove(difference.deviation());
            }
        }
    }

    private void tell(Difference difference, Seen seen) {
        sinceMicros.putIfAbsent(difference.deviation(), seen.fromMicros());
        enough.put(difference.deviation(), difference);
    }

    private boolean isEnough(Difference difference) {
        return enough.containsKey(difference.deviation());
    }

    long running(Deviation deviation) {
        return running.getOrDefault(deviation, 0L);
    }

    long sinceMicros(Deviation deviation) {
        return sinceMicros.get(deviation);
    }

    /** What has differed often enough, the gravest first. */
    List<Difference> enough() {
        return List.copyOf(enough.values());
    }

    /** How grave that is. */
    Optional<Grade> grade() {
        return enough.keySet().stream().findFirst().map(Deviation::grade);
    }

    void keep(State state) {
        running.putAll(state.keep("running", Deviation.class, Long.class, running));
        sinceMicros.putAll(state.keep("sinceMicros", Deviation.class, Long.class, sinceMicros));
        enough.putAll(state.keep("enough", Deviation.class, Difference.class, enough));
    }
}
