package leat.watch;

import static java.util.Objects.requireNonNull;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import leat.alarm.AlarmChange;
import leat.alarm.ServiceChange;
import leat.diagnose.Observation;
import leat.diagnose.Observations;
import leat.diagnose.Testimony;
import leat.diagnose.WorkDone;
import leat.measure.Run;
import leat.measure.Startup;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.rule.Learning;
import leat.rule.Remark;
import leat.rule.StartupVerdict;
import leat.signal.Order;
import leat.wire.State;

/**
 * What the outcomes of one machine add up to, start by start: each start with its run, the stop
 * after it and what was wrong with the signals meanwhile; and what people did and answered. It is
 * told every outcome and every journal entry in order, by a watch or from the store.
 * Thread-confined.
 */
public final class Recollection implements Consumer<Outcome> {

    /** Such a start says nothing of the machine. */
    private static final Set<Remark.Kind> NOTHING_SEEN =
            EnumSet.of(
                    Remark.Kind.BROKEN_OFF,
                    Remark.Kind.CUT_SHORT,
                    Remark.Kind.READING_STUCK,
                    Remark.Kind.READING_DOUBTED);

    /**
     * Whatever climbs has climbed by then, so that one that was stopped later tells; own choice.
     */
    private static final double TELLING_SECONDS = 5;

    private final Observations observations;
    private final WorkDone work = new WorkDone();

    private Recollection(Observations observations) {
        this.observations = requireNonNull(observations, "observations");
    }

    /** Of the newest {@link Observations#MOST} starts. */
    public static Recollection ofLatest() {
        return new Recollection(Observations.latest());
    }

    /** Of all that it is told. */
    public static Recollection ofAll() {
        return new Recollection(Observations.unlimited());
    }

    /** Of these outcomes, in order. */
    public static Recollection of(List<Outcome> outcomes) {
        Recollection all = ofAll();
        outcomes.forEach(all);
        return all;
    }

    /** Oldest first. */
    public List<Observation> all() {
        return observations.all();
    }

    /** The one in which a time lies, and all after it. */
    public List<Observation> since(long micros) {
        return observations.since(micros);
    }

    /** The one of this start; empty where nothing is known of it any more. */
    public Optional<Observation> of(Startup startup) {
        return observations.of(startup.startedAtMicros());
    }

    /** A start is looked at before it is judged, so that a call can say what it showed. */
    public void lookedAt(Startup soFar) {
        observations.started(soFar);
    }

    /** Likewise a run that lasts. */
    public void lookedAt(Run soFar) {
        observations.ran(soFar);
    }

    @Override
    public void accept(Outcome outcome) {
        if (outcome instanceof Outcome.PhaseChanged changed) {
            phaseChanged(changed.change());
        } else if (outcome instanceof Outcome.StartupMeasured start) {
            measured(start.startup(), start.verdict());
        } else if (outcome instanceof Outcome.RunJudged judged) {
            observations.ran(judged.run());
        } else if (outcome instanceof Outcome.RestMeasured rest) {
            observations.rested(rest.spell());
        } else if (outcome instanceof Outcome.AlarmChanged changed) {
            alarmChanged(changed.change());
        } else if (outcome instanceof Outcome.LearningProgressed learning) {
            learned(learning.learning());
        } else if (outcome instanceof Outcome.ServiceChanged changed) {
            serviceChanged(changed.change());
        }
    }

    /**
     * Somebody wrote into the journal, and nobody refused it; after work what was seen before says
     * nothing of now.
     */
    public void noted(long atMicros, Order.Journal journal) {
        work.noted(atMicros, journal);
        if (journal.entry().beginsAnew()) {
            observations.forget();
        }
    }

    /** The clock was set. */
    public void step(long fromMicros, long atMicros) {
        work.step(fromMicros, atMicros);
    }

    /** What people did and answered, as far as it counts at a time, microseconds UTC. */
    public Testimony testimony(long atMicros) {
        return new Testimony(work.priors(atMicros), work.answers(atMicros));
    }

    /** What a person does stands in the journal; a service that ends by itself does not. */
    private void serviceChanged(ServiceChange change) {
        if (!change.on() && change.reason().isPresent()) {
            noted(change.atMicros(), new Order.Journal(Order.Entry.SERVICE_OFF, ""));
        }
    }

    private void phaseChanged(PhaseChange change) {
        if (change.to() == Phase.RISE) {
            work.started();
        }
        boolean unseen = change.to() == Phase.STEADY && !change.from().isRunning();
        if (change.to() == Phase.RISE || unseen && !observations.lasts()) {
            observations.begins(change.atMicros());
        } else if (change.from() == Phase.RISE && change.to() == Phase.REST) {
            observations.wasNone();
        }
    }

    private void measured(Startup startup, StartupVerdict verdict) {
        if (verdict.remarks().stream().anyMatch(Recollection::saysNothing)) {
            observations.saysNothing(startup);
        } else {
            observations.started(startup);
        }
    }

    private static boolean saysNothing(Remark remark) {
        boolean stoppedLate =
                remark.kind() == Remark.Kind.BROKEN_OFF
                        && remark.numbers().get(0) >= TELLING_SECONDS;
        return NOTHING_SEEN.contains(remark.kind()) && !stoppedLate;
    }

    private void alarmChanged(AlarmChange change) {
        switch (change.event()) {
            case RAISED, WORSENED, EASED, CHATTERING, REPEATED ->
                    observations.found(change.finding());
            case RETURNED, LATCHED ->
                    observations.gone(change.finding().rule(), change.finding().channel());
            case ACKNOWLEDGED,
                    RESET,
                    SHELVED,
                    UNSHELVED,
                    SUPPRESSED,
                    RELEASED,
                    REMOVED,
                    RESTORED,
                    SETTLED -> {
                // the condition is as it was
            }
        }
    }

    /** Learning begins anew when the line was opened, or a person says that it is sound. */
    private void learned(Learning learning) {
        if (learning.good() == 0 && learning.cause() != Learning.Cause.FIRST) {
            observations.forget();
        }
    }

    void keep(State state) {
        observations.keep(state);
        state.part("work", work::keep);
    }
}
