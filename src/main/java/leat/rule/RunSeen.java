package leat.rule;

import java.util.List;
import java.util.Map;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Run;

/**
 * What is known of a run as it is judged.
 *
 * @param run its own means
 * @param reached what its start was measured to reach; nothing where that was not seen
 * @param situation now, at its end
 */
record RunSeen(Run run, Map<Measurand, Figure> reached, Situation situation) {

    /** The mean over the run, or of a short one what its start was measured to reach. */
    Figure figure(Measurand measurand) {
        return run.figure(measurand, reached);
    }

    /** The level with the jet on, or the level where on and off could not be told apart. */
    Figure loadedPsi() {
        return run.loadedPsi(reached);
    }

    /** The level with the jet off; without one what the gauge showed over all the run. */
    Figure highestPsi() {
        return run.highestPsi(reached);
    }

    /** That a finding rests on the mean of a run, and how long that was. */
    List<Remark> remarks() {
        return List.of(
                Remark.of(
                        Remark.Kind.MEAN_OF_RUN,
                        (run.endedAtMicros() - run.startedAtMicros()) / 1e6));
    }
}
