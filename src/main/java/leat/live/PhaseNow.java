package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.OptionalLong;
import leat.phase.Phase;
import leat.phase.PhaseChange;

/**
 * What a line does, and since when.
 *
 * @param phase what it does
 * @param sinceMicros since when, microseconds UTC
 * @param runningMicros since when the booster runs, microseconds UTC; empty while it does not
 */
public record PhaseNow(Phase phase, long sinceMicros, OptionalLong runningMicros) {

    public PhaseNow {
        requireNonNull(phase, "phase");
        requireNonNull(runningMicros, "runningMicros");
    }

    /**
     * @param changes the last ones, newest first; at least one
     */
    static PhaseNow of(List<PhaseChange> changes) {
        PhaseChange last = changes.get(0);
        OptionalLong running =
                changes.stream()
                        .takeWhile(change -> change.to().isRunning())
                        .mapToLong(PhaseChange::atMicros)
                        .reduce((newer, older) -> older);
        return new PhaseNow(last.to(), last.atMicros(), running);
    }
}
