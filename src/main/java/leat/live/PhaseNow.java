package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.OptionalLong;
import java.util.function.Predicate;
import leat.phase.Phase;
import leat.phase.PhaseChange;

/**
 * What a line does, and since when.
 *
 * @param phase what it does
 * @param sinceMicros since when, microseconds UTC
 * @param runningMicros since when the booster runs, microseconds UTC; empty while it does not
 * @param stoppedMicros since when it is stopped, microseconds UTC; empty while it runs, or where
 *     that was not seen
 */
public record PhaseNow(
        Phase phase, long sinceMicros, OptionalLong runningMicros, OptionalLong stoppedMicros) {

    public PhaseNow {
        requireNonNull(phase, "phase");
        requireNonNull(runningMicros, "runningMicros");
        requireNonNull(stoppedMicros, "stoppedMicros");
    }

    /**
     * @param changes the last ones, newest first; at least one
     */
    static PhaseNow of(List<PhaseChange> changes) {
        PhaseChange last = changes.get(0);
        return new PhaseNow(
                last.to(),
                last.atMicros(),
                since(changes, Phase::isRunning),
                since(changes, phase -> phase == Phase.FALL || phase == Phase.REST));
    }

    /** Since when it has been so without a break. */
    private static OptionalLong since(List<PhaseChange> changes, Predicate<Phase> isSo) {
        return changes.stream()
                .takeWhile(change -> isSo.test(change.to()))
                .mapToLong(PhaseChange::atMicros)
                .reduce((newer, older) -> older);
    }
}
