package leat.rule;

import static java.util.Objects.requireNonNull;

/**
 * How a startup was judged.
 *
 * @param outcome the judgement
 * @param note plain words: the figure and the limit, or why it was not judged
 */
public record StartupVerdict(Outcome outcome, String note) {

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
        /** Cut short, or the data do not carry a judgement. */
        NOT_JUDGED
    }

    /**
     * A start of which nothing can be said.
     *
     * @param because why, in plain words
     */
    public static StartupVerdict notJudged(String because) {
        return new StartupVerdict(Outcome.NOT_JUDGED, "not judged: " + because);
    }

    /** The same with a further remark. */
    StartupVerdict with(String remark) {
        return new StartupVerdict(outcome, note + "; " + remark);
    }

    public StartupVerdict {
        requireNonNull(outcome, "outcome");
        requireNonNull(note, "note");
    }
}
