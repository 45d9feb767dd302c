package leat.watch;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.diagnose.Observation;
import leat.diagnose.Reference;
import leat.diagnose.Testimony;
import leat.measure.Run;
import leat.measure.Startup;
import leat.rule.Baseline;
import leat.rule.Finding;
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
    private final Supplier<Optional<Baseline>> baseline;
    private final Supplier<Optional<Startup>> climbing;
    private final Supplier<Optional<Run>> lasting;

    /**
     * @param baseline what is usual for the machine; empty while it is learned
     * @param climbing the start that has not been measured yet, as far as it has come
     * @param lasting the run that lasts, as far as it has come
     */
    CauseFinder(
            Supplier<Optional<Baseline>> baseline,
            Supplier<Optional<Startup>> climbing,
            Supplier<Optional<Run>> lasting) {
        this.baseline = baseline;
        this.climbing = climbing;
        this.lasting = lasting;
    }

    /** Something was said of the machine. */
    void accept(Outcome outcome) {
        recollection.accept(outcome);
    }

    /** Somebody wrote into the journal. */
    void noted(long atMicros, Order.Journal journal) {
        recollection.noted(atMicros, journal);
    }

    /** The clock was set. */
    void step(long fromMicros, long atMicros) {
        recollection.step(fromMicros, atMicros);
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

    private Optional<Diagnosis> why(AlarmChange change) {
        if (!change.isCall() || saysNothingOfTheMachine(change.finding())) {
            return Optional.empty();
        }
        climbing.get().ifPresent(recollection::lookedAt);
        lasting.get().ifPresent(recollection::lookedAt);
        List<Observation> seen = recollection.since(change.finding().sinceMicros());
        return seen.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        testimony(change)
                                .why(seen, Reference.of(baseline.get()))
                                .shortened(MOST_CAUSES));
    }

    /**
     * A sensor's clock, and a channel from which nothing comes: that is power or network, and no
     * check of the line tells more of it. A loop that is open is read, and BAD.
     */
    private static boolean saysNothingOfTheMachine(Finding finding) {
        return finding.rule() == Rule.SIGNAL_CLOCK || finding.isOfSilence();
    }

    /** A call about a channel's health says nothing of the machine's. */
    private Testimony testimony(AlarmChange change) {
        Testimony testimony = recollection.testimony(change.atMicros());
        return change.finding().rule().isAboutSignal() ? testimony : testimony.called();
    }

    void keep(State state) {
        recollection.keep(state);
    }
}
