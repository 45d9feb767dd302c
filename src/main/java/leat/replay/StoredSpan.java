package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import leat.measure.Measurand;
import leat.rule.Baseline;
import leat.rule.Learning;
import leat.rule.Usual;
import leat.signal.Input;
import leat.store.Run;
import leat.store.StoreReader;
import leat.store.StoredStartup;

/**
 * A stretch of what the store holds of one machine.
 *
 * @param reader the store; stays open as long as this is read
 * @param machine name of the machine
 * @param afterSeq number of the last input before it
 * @param toSeq number of its last input
 * @param configHash the configuration that it was judged under at first
 */
public record StoredSpan(
        StoreReader reader, String machine, long afterSeq, long toSeq, String configHash)
        implements Past {

    /** A replay of a startup begins so long before it: a rest long enough to be seen as one. */
    private static final long BEFORE_START_MICROS = 60_000_000;

    private static final long BEFORE_CURVE_MICROS = 5_000_000;
    private static final long AFTER_CURVE_MICROS = 16_000_000;

    public StoredSpan {
        requireNonNull(reader, "reader");
        requireNonNull(machine, "machine");
        requireNonNull(configHash, "configHash");
    }

    /**
     * From a minute before a startup to the input that completed it; empty when its readings are no
     * longer kept.
     */
    public static Optional<StoredSpan> of(StoreReader reader, StoredStartup stored) {
        long started = stored.startup().startedAtMicros();
        OptionalLong from = reader.firstSeqAt(stored.machine(), started - BEFORE_START_MICROS);
        OptionalLong start = reader.firstSeqAt(stored.machine(), started);
        if (from.isEmpty() || start.isEmpty() || start.getAsLong() > stored.seq()) {
            return Optional.empty();
        }
        return Optional.of(
                new StoredSpan(
                        reader,
                        stored.machine(),
                        from.getAsLong() - 1,
                        stored.seq(),
                        stored.configHash()));
    }

    /** The seconds around a startup; empty when its readings are no longer kept. */
    public static Optional<StoredSpan> curve(StoreReader reader, StoredStartup stored) {
        long started = stored.startup().startedAtMicros();
        long measured = stored.startup().measuredAtMicros();
        return of(reader, stored)
                .flatMap(
                        kept ->
                                between(
                                        reader,
                                        stored.machine(),
                                        started - BEFORE_CURVE_MICROS,
                                        Math.max(measured, started + AFTER_CURVE_MICROS)));
    }

    /**
     * What came between two times; empty when nothing did.
     *
     * @param sinceMicros event time, microseconds UTC
     * @param untilMicros not included
     */
    public static Optional<StoredSpan> between(
            StoreReader reader, String machine, long sinceMicros, long untilMicros) {
        OptionalLong first = reader.firstSeqAt(machine, sinceMicros);
        OptionalLong beyond = reader.firstSeqAt(machine, untilMicros);
        long last = beyond.isPresent() ? beyond.getAsLong() - 1 : reader.lastSeq(machine);
        if (first.isEmpty() || first.getAsLong() > last) {
            return Optional.empty();
        }
        return Optional.of(
                new StoredSpan(
                        reader,
                        machine,
                        first.getAsLong() - 1,
                        last,
                        configAt(reader, sinceMicros)));
    }

    /** The configuration of the run that went on at a time, or of the first one after it. */
    private static String configAt(StoreReader reader, long micros) {
        String hash = "";
        for (Run run : reader.runs(Integer.MAX_VALUE)) { // newest first
            hash = run.configHash();
            if (run.startedMicros() <= micros) {
                break;
            }
        }
        return hash;
    }

    /** What was usual for the machine when it begins; a fresh watch is to know it. */
    public Optional<Baseline> baseline() {
        return reader.baselineAfter(machine, afterSeq);
    }

    /** How far the machine's baseline had been learned at its end. */
    public Optional<Learning> learning() {
        return reader.learningAfter(machine, toSeq);
    }

    /**
     * The start of a baseline whose rise is the median one; empty when its readings are no longer
     * kept.
     */
    public Optional<StoredStartup> typical(Baseline baseline) {
        Optional<Usual> rise = baseline.usual(Measurand.RISE);
        return baseline.starts().stream()
                .flatMap(started -> reader.startupAt(machine, started).stream())
                .filter(stored -> rise.isPresent() && stored.startup().riseSeconds().isPresent())
                .min(Comparator.comparingDouble(stored -> distance(stored, rise.orElseThrow())))
                .filter(stored -> of(reader, stored).isPresent());
    }

    private static double distance(StoredStartup stored, Usual rise) {
        return Math.abs(stored.startup().riseSeconds().get() - rise.median());
    }

    @Override
    public void read(Consumer<Input> into) {
        reader.inputs(machine, afterSeq, toSeq, (seq, input) -> into.accept(input));
    }
}
