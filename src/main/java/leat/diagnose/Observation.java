package leat.diagnose;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.absence.Absence;

/**
 * What was seen from one start to the next: the start, its run, the stop after it, and what was
 * wrong with the signals meanwhile. Immutable.
 *
 * @param startedAtMicros when the booster started, microseconds UTC; it identifies the observation
 * @param start empty where the start was not seen
 * @param run as much of it as is over; empty where it was not seen
 * @param rest empty before the stop, and where it was not seen
 * @param signals what was wrong with readings; each at most once
 */
public record Observation(
        long startedAtMicros,
        Optional<Startup> start,
        Optional<Run> run,
        Optional<RestSpell> rest,
        List<SignalFact> signals) {

    public Observation {
        requireNonNull(start, "start");
        requireNonNull(run, "run");
        requireNonNull(rest, "rest");
        signals = signals.stream().distinct().toList();
    }

    /** Of which nothing is known but its time. */
    public static Observation at(long startedAtMicros) {
        return new Observation(
                startedAtMicros, Optional.empty(), Optional.empty(), Optional.empty(), List.of());
    }

    Observation with(Startup measured) {
        return new Observation(
                measured.startedAtMicros(), Optional.of(measured), run, rest, signals);
    }

    /** The same, of which the start says nothing. */
    Observation withoutStart(long startMicros) {
        return new Observation(startMicros, Optional.empty(), run, rest, signals);
    }

    /** The same, in which nothing ran. */
    Observation withoutStartAndRun() {
        return new Observation(startedAtMicros, Optional.empty(), Optional.empty(), rest, signals);
    }

    public Observation with(Run measured) {
        return new Observation(startedAtMicros, start, Optional.of(measured), rest, signals);
    }

    Observation with(RestSpell measured) {
        return new Observation(startedAtMicros, start, run, Optional.of(measured), signals);
    }

    Observation with(SignalFact fact) {
        return new Observation(
                startedAtMicros,
                start,
                run,
                rest,
                Stream.concat(signals.stream(), Stream.of(fact)).toList());
    }

    /** Nothing was seen in it. */
    boolean isEmpty() {
        return start.isEmpty() && run.isEmpty() && rest.isEmpty() && signals.isEmpty();
    }

    /** It is the one of the start, or the run, that began then. */
    boolean isOf(long startMicros) {
        return startedAtMicros == startMicros
                || run.filter(its -> its.startedAtMicros() == startMicros).isPresent();
    }

    /** Its run is over: what starts now is another one. */
    boolean isOver() {
        return rest.isPresent() || run.filter(Run::over).isPresent();
    }

    /** A number of the start. */
    Figure ofStart(Measurand measurand) {
        return start.map(s -> s.figure(measurand)).orElse(UNSEEN);
    }

    /** A number of the run. */
    Figure ofRun(Measurand measurand) {
        return run.map(r -> r.figure(measurand)).orElse(UNSEEN);
    }

    private static final Figure UNSEEN = Figure.absent(Absence.NOT_LOOKED_AT);
}
