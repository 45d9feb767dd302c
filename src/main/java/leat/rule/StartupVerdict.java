package leat.rule;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.stream.Stream;
import leat.phase.PhaseReason;

/**
 * How a startup was judged.
 *
 * @param outcome the judgement
 * @param remarks what it rests on: the figure and the limit, or why it was not judged; then what
 *     else is to be said of the start
 */
public record StartupVerdict(Outcome outcome, List<Remark> remarks) {

    /** What can be said of a startup. */
    public enum Outcome {
        GOOD,
        SLOW,
        VERY_SLOW,
        NOT_RISEN,
        /** Risen to a level, but one that is hardly above the inlet: the booster does not boost. */
        NO_BOOST,
        /** Slow, but one of the first starts after service, in which air purges. */
        RELAXED,
        /** Broken off or cut short, or the data do not carry a judgement. */
        NOT_JUDGED
    }

    public StartupVerdict {
        requireNonNull(outcome, "outcome");
        remarks = List.copyOf(remarks);
    }

    static StartupVerdict of(Outcome outcome, Remark... remarks) {
        return new StartupVerdict(outcome, List.of(remarks));
    }

    /** A start that was stopped in its climb, so many seconds after it. */
    public static StartupVerdict brokenOff(double seconds, PhaseReason by) {
        return of(Outcome.NOT_JUDGED, Remark.brokenOff(seconds, by));
    }

    /** A start of which nothing can be said, because it was not seen to its end. */
    public static StartupVerdict cutShort(PhaseReason by) {
        return of(Outcome.NOT_JUDGED, Remark.cutShort(by));
    }

    /** How grave that is for the run. */
    public RunVerdict.Mark mark() {
        return switch (outcome) {
            case GOOD, RELAXED -> RunVerdict.Mark.GOOD;
            case SLOW -> RunVerdict.Mark.ADVISORY;
            case VERY_SLOW -> RunVerdict.Mark.WARNING;
            case NOT_RISEN, NO_BOOST -> RunVerdict.Mark.CRITICAL;
            case NOT_JUDGED -> RunVerdict.Mark.NOT_JUDGED;
        };
    }

    /** The same with further remarks. */
    StartupVerdict with(List<Remark> more) {
        return new StartupVerdict(outcome, Stream.concat(remarks.stream(), more.stream()).toList());
    }
}
