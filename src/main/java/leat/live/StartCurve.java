package leat.live;

import java.util.List;

/**
 * Both pressures around a start, thinned: of each short piece of time the lowest and the highest
 * reading, so that no peak is lost. Immutable.
 *
 * @param startedMicros the start, microseconds UTC
 * @param inlet in the order of time
 * @param boosted likewise
 */
public record StartCurve(long startedMicros, List<Point> inlet, List<Point> boosted) {

    /**
     * A reading.
     *
     * @param atMicros when it was taken, microseconds UTC
     * @param psi gauge pressure
     */
    public record Point(long atMicros, double psi) {}

    public StartCurve {
        inlet = List.copyOf(inlet);
        boosted = List.copyOf(boosted);
    }

    public boolean isEmpty() {
        return inlet.isEmpty() && boosted.isEmpty();
    }
}
