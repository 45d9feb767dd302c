package leat.watch;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.diagnose.Diagnostician;
import leat.diagnose.Observation;
import leat.diagnose.Reference;
import leat.diagnose.WorkDone;
import leat.measure.Run;
import leat.measure.Startup;
import leat.phase.Phase;
import leat.rule.Baseline;
import leat.rule.Rule;
import leat.signal.Order;
import leat.wire.State;

/**
 * Says of each call why: it remembers the last starts, and gives the likeliest causes of what they
 * showed since the condition of the alarm came. Thread-confined to its watch.
 */
final class CauseFinder {

    /** So many causes go with a call; what is less likely is no help in front of the machine. */
    private static final int MOST_CAUSES = 5;

    private final Recollection recollection = Recollection.ofLatest();
    private final WorkDone work = new WorkDone();
    private final Supplier<Optional<Baseline>> baseline;
    private final Supplier<Optional<Run>> lasting;

    /**
     * @param baseline what is usual for the machine; empty while it is learned
     * @param lasting the run that lasts, as far as it has come
     */
    CauseFinder(Supplier<Optional<Baseline>> baseline, Supplier<Optional<Run>> lasting) {
        this.baseline = baseline;
        this.lasting = lasting;
    }

    /** Something was said of the machine. */
    void accept(Outcome outcome) {
        recollection.accept(outcome);
        if (outcome instanceof Outcome.PhaseChanged changed
                && changed.change().to() == Phase.RISE) {
            work.started();
        }
    }

    /** Somebody wrote into the journal; after work what was seen before says nothing of now. */
    void noted(long atMicros, Order.Journal journal) {
        work.noted(atMicros, journal);
        if (journal.entry().beginsAnew()) {
            recollection.forget();
        }
    }

    /** The clock was set. */
    void step(long fromMicros, long atMicros) {
        work.step(fromMicros, atMicros);
    }

    /** A start was measured, perhaps not to its end, and will be judged. */
    void lookedAt(Startup soFar) {
        recollection.lookedAt(soFar);
    }

    /** An alarm changed; if that is a call, with the reason. */
    Outcome.AlarmChanged explained(AlarmChange change) {
        recollection.accept(new Outcome.AlarmChanged(change));
        return new Outcome.AlarmChanged(change, why(change));
    }

    /** A sensor's clock says nothing of the machine. */
    private Optional<Diagnosis> why(AlarmChange change) {
        if (!change.isCall() || change.finding().rule() == Rule.SIGNAL_CLOCK) {
            return Optional.empty();
        }
        lasting.get().ifPresent(recollection::lookedAt);
        List<Observation> seen = recollection.since(change.finding().sinceMicros());
        return seen.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        Diagnostician.why(
                                        seen,
                                        Reference.of(baseline.get()),
                                        work.priors(change.atMicros()),
                                        work.answers(change.atMicros()))
                                .shortened(MOST_CAUSES));
    }

    void keep(State state) {
        recollection.keep(state);
        state.part("work", work::keep);
    }
}
