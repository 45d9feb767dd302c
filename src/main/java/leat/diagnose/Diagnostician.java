package leat.diagnose;

import java.util.List;
import java.util.Optional;

/**
 * Ranks the causes of what was seen. A function: the same observations always give the same
 * diagnosis. Immutable, thread-safe.
 */
public final class Diagnostician {

    private Diagnostician() {}

    /**
     * @param observations of one machine, oldest first, all since it was last worked on; several
     *     tell more than one
     * @param reference what is usual for it
     * @param priors what was done to it
     * @param answers what people have found
     */
    public static Diagnosis why(
            List<Observation> observations,
            Reference reference,
            Priors priors,
            List<Answer> answers) {
        return new Diagnosis(
                List.of(new Suspect(Cause.UNKNOWN, 1, List.of(), List.of(), Optional.empty())),
                observations.size(),
                reference.known(),
                answers);
    }
}
