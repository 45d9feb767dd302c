package leat.rule;

import static java.util.Objects.requireNonNull;

import leat.measure.Run;

/** A run with the verdict on it. Immutable. */
public record JudgedRun(Run run, RunVerdict verdict) {

    public JudgedRun {
        requireNonNull(run, "run");
        requireNonNull(verdict, "verdict");
    }
}
