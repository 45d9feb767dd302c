package leat.diagnose;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * What turned out to be the matter with a machine, beside what leat had said of it. Immutable.
 *
 * @param machine name of the machine
 * @param atMicros when somebody said so, microseconds UTC
 * @param cause what it was
 * @param said what leat had named first; empty where it had seen nothing that it could judge
 */
public record Found(String machine, long atMicros, Cause cause, Optional<Suspect> said) {

    public Found {
        requireNonNull(machine, "machine");
        requireNonNull(cause, "cause");
        requireNonNull(said, "said");
    }

    /** leat had named it first. */
    public boolean isRight() {
        return said.filter(suspect -> suspect.cause() == cause).isPresent();
    }

    /** leat had been sure of what it named. */
    boolean isSure() {
        return said.filter(suspect -> suspect.weight() >= Score.SURE).isPresent();
    }
}
