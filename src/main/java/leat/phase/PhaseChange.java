package leat.phase;

import static java.util.Objects.requireNonNull;

/**
 * The feed line went from one phase to another.
 *
 * @param from the phase that ended
 * @param to the phase that began
 * @param atMicros event time of the reading or tick that showed it, microseconds UTC
 * @param reason what showed it
 */
public record PhaseChange(Phase from, Phase to, long atMicros, PhaseReason reason) {
    public PhaseChange {
        requireNonNull(from, "from");
        requireNonNull(to, "to");
        requireNonNull(reason, "reason");
    }

    /** True when the booster begins to run, or does so no more. */
    public boolean isOfRunning() {
        return from.isRunning() != to.isRunning();
    }
}
