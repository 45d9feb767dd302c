package leat.live;

import java.util.List;
import leat.signal.Channel;
import leat.store.StoreReader;

/**
 * Both pressures around a start, thinned: of each short piece of time the lowest and the highest
 * reading, so that no peak is lost. Immutable.
 *
 * @param startedMicros the start, microseconds UTC
 * @param inlet in the order of time
 * @param boosted likewise
 */
public record StartCurve(long startedMicros, List<Point> inlet, List<Point> boosted) {

    private static final long BEFORE_MICROS = 1_000_000;

    /** Longer than any start takes to be measured. */
    private static final long LONGEST_MICROS = 60_000_000;

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

    /**
     * From 1 s before a start on.
     *
     * @param toMicros to this time, for a minute at most
     * @param toSeq and to this input
     */
    static StartCurve read(
            StoreReader reader, String machine, long startedMicros, long toMicros, long toSeq) {
        long from = startedMicros - BEFORE_MICROS;
        long to = Math.min(toMicros, startedMicros + LONGEST_MICROS);
        Thinned inlet = new Thinned(Channel.INLET, from, to);
        Thinned boosted = new Thinned(Channel.BOOSTED, from, to);
        reader.firstSeqAt(machine, from)
                .ifPresent(
                        first -> {
                            long last =
                                    Math.min(toSeq, reader.firstSeqAt(machine, to).orElse(toSeq));
                            reader.inputs(
                                    machine,
                                    first - 1,
                                    last,
                                    (seq, input) -> {
                                        inlet.add(input);
                                        boosted.add(input);
                                    });
                        });
        return new StartCurve(startedMicros, inlet.points(), boosted.points());
    }
}
