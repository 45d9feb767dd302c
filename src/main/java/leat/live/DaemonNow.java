package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalLong;
import leat.signal.Keyword;
import leat.store.Run;

/**
 * Whether leat runs, as far as its store tells. Nobody asks the lock of the writer: to try it could
 * keep a leat out that starts at this moment.
 *
 * @param state what the store tells
 * @param run the last run of the daemon; empty where it never ran
 * @param storedMicros the last whole second that was stored, microseconds UTC; empty before the
 *     first
 */
public record DaemonNow(State state, Optional<Run> run, OptionalLong storedMicros) {

    /** A commit a second is due; a slow disk may take some. */
    private static final long LATE_MICROS = 5_000_000;

    /** What the store tells of the daemon. */
    public enum State {
        /** It has stored something within the last seconds. */
        RUNS,
        /** It has just been started and has stored nothing yet. */
        STARTS,
        /** It came to its orderly end. */
        ENDED,
        /** No end is on record, but nothing is stored: killed, no power, or a disk that is full. */
        SILENT,
        /** It never ran on this store. */
        NEVER_RAN;

        /** Such as {@code never-ran}. */
        public String key() {
            return Keyword.of(this);
        }
    }

    public DaemonNow {
        requireNonNull(state, "state");
        requireNonNull(run, "run");
        requireNonNull(storedMicros, "storedMicros");
    }

    static DaemonNow of(Optional<Run> run, OptionalLong storedMicros, long nowMicros) {
        return new DaemonNow(
                run.map(last -> state(last, storedMicros, nowMicros)).orElse(State.NEVER_RAN),
                run,
                storedMicros);
    }

    private static State state(Run run, OptionalLong stored, long nowMicros) {
        if (run.endedMicros().isPresent()) {
            return State.ENDED;
        }
        if (stored.isPresent() && nowMicros - stored.getAsLong() <= LATE_MICROS) {
            return State.RUNS;
        }
        return nowMicros - run.startedMicros() <= LATE_MICROS ? State.STARTS : State.SILENT;
    }

    /** Whether what is shown is of this moment. */
    public boolean isRunning() {
        return state == State.RUNS || state == State.STARTS;
    }
}
