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
 * @param number what people type to name it, such as {@code jet-1/17}
 */
public record StoredWhy(long startedAtMicros, Diagnosis why, String number) {

    public StoredWhy {
        requireNonNull(why, "why");
        requireNonNull(number, "number");
    }

    /** The command that takes what a check showed, but for the answer. */
    String answering() {
        return "leat answer " + number;
    }

    /** The command that tells all of it. */
    String asking() {
        return "leat why " + number;
    }

    boolean isOf(Startup startup) {
        return startup.startedAtMicros() == startedAtMicros;
    }
}
