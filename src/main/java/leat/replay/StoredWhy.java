package leat.replay;

import static java.util.Objects.requireNonNull;

import leat.diagnose.Diagnosis;
import leat.measure.Startup;

/**
 * Why a stored startup was as it was: by all that the store holds of it, also what came after what
 * is replayed, and what people wrote into the journal. Immutable.
 *
 * @param startedAtMicros which startup
 * @param why the diagnosis
 * @param answering the command that takes what a check showed, but for the answer
 */
public record StoredWhy(long startedAtMicros, Diagnosis why, String answering) {

    public StoredWhy {
        requireNonNull(why, "why");
        requireNonNull(answering, "answering");
    }

    boolean isOf(Startup startup) {
        return startup.startedAtMicros() == startedAtMicros;
    }
}
