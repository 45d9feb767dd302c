package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
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

    @Override
    public void read(Consumer<Input> into) {
        reader.inputs(machine, afterSeq, toSeq, (seq, input) -> into.accept(input));
    }
}
