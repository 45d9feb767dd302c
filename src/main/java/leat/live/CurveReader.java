package leat.live;

import java.util.OptionalLong;
import leat.measure.Figure;
import leat.measure.Startup;
import leat.signal.Channel;
import leat.store.StoreReader;
import leat.store.StoredStartup;

/**
 * Reads both pressures around a start, from 1 s before it on, and goes on where it has stopped.
 * Thread-confined.
 */
public final class CurveReader {

    private static final long BEFORE_MICROS = 1_000_000;

    /** Longer than any start takes to be measured. */
    private static final long LONGEST_MICROS = 60_000_000;

    private static final long SHORTEST_PIECE_MICROS = 50_000;
    private static final long GROWING_PIECE_MICROS = 100_000;
    private static final int PIECES = 150;

    /** A start is shown for so long at least. */
    private static final long SHORTEST_MICROS = 8_000_000;

    private final String machine;
    private final long startedMicros;
    private final long toMicros;
    private final Thinned inlet;
    private final Thinned boosted;
    private OptionalLong readTo = OptionalLong.empty();

    private CurveReader(String machine, long startedMicros, long toMicros, long pieceMicros) {
        this.machine = machine;
        this.startedMicros = startedMicros;
        this.toMicros = toMicros;
        long from = startedMicros - BEFORE_MICROS;
        inlet = new Thinned(Channel.INLET, from, toMicros, pieceMicros);
        boosted = new Thinned(Channel.BOOSTED, from, toMicros, pieceMicros);
    }

    /** Of a start that was measured: twice the time to its level, but no less than some seconds. */
    public static StartCurve curve(StoreReader reader, StoredStartup stored) {
        Startup startup = stored.startup();
        Figure to90 = startup.startTo90Seconds();
        double seconds = to90.isPresent() ? to90.get() : Double.POSITIVE_INFINITY;
        long longest = Math.max(SHORTEST_MICROS, (long) Math.min(LONGEST_MICROS, 2e6 * seconds));
        long started = startup.startedAtMicros();
        CurveReader curve =
                whole(
                        stored.machine(),
                        started,
                        Math.min(startup.measuredAtMicros(), started + longest));
        curve.read(reader, reader.lastSeq(stored.machine()));
        return curve.curve();
    }

    /** Of a start that is over at a time, microseconds UTC; of a minute at most. */
    static CurveReader whole(String machine, long startedMicros, long toMicros) {
        long to = Math.min(toMicros, startedMicros + LONGEST_MICROS);
        long piece = Math.max(SHORTEST_PIECE_MICROS, (to - startedMicros) / PIECES);
        return new CurveReader(machine, startedMicros, to, piece);
    }

    /** Of one that climbs, for a minute at most. */
    static CurveReader growing(String machine, long startedMicros) {
        return new CurveReader(
                machine, startedMicros, startedMicros + LONGEST_MICROS, GROWING_PIECE_MICROS);
    }

    long startedMicros() {
        return startedMicros;
    }

    /** Reads what has come up to and with an input, unless it lies after the window. */
    void read(StoreReader reader, long toSeq) {
        if (readTo.isEmpty()) {
            reader.firstSeqAt(machine, startedMicros - BEFORE_MICROS)
                    .ifPresent(first -> readTo = OptionalLong.of(first - 1));
        }
        if (readTo.isPresent() && readTo.getAsLong() < toSeq) {
            long last = Math.min(toSeq, reader.firstSeqAt(machine, toMicros).orElse(toSeq));
            reader.inputs(
                    machine,
                    readTo.getAsLong(),
                    last,
                    (seq, input) -> {
                        inlet.add(input);
                        boosted.add(input);
                    });
            readTo = OptionalLong.of(last);
        }
    }

    StartCurve curve() {
        return new StartCurve(startedMicros, inlet.points(), boosted.points());
    }
}
