package leat.diagnose;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
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

    static Observation at(long startedAtMicros) {
        return new Observation(
                startedAtMicros, Optional.empty(), Optional.empty(), Optional.empty(), List.of());
    }

    Observation with(Startup measured) {
        return new Observation(startedAtMicros, Optional.of(measured), run, rest, signals);
    }

    Observation with(Run measured) {
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
                java.util.stream.Stream.concat(signals.stream(), java.util.stream.Stream.of(fact))
                        .toList());
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
