package leat.replay;

import leat.rule.RunVerdict;

/**
 * How many starts a past had, and how its runs were judged; the run that lasted at its end counts
 * as far as it had come.
 *
 * @param starts that were measured
 * @param good runs of which all that was judged was good
 * @param notGood runs with an ADVISORY or more
 * @param notJudged runs too short, or without the data, for a verdict
 */
public record RunCount(long starts, long good, long notGood, long notJudged) {

    /** Nothing yet. */
    public static final RunCount NONE = new RunCount(0, 0, 0, 0);

    RunCount start() {
        return plus(new RunCount(1, 0, 0, 0));
    }

    RunCount run(RunVerdict verdict) {
        return plus(
                switch (verdict.mark()) {
                    case GOOD -> new RunCount(0, 1, 0, 0);
                    case NOT_JUDGED -> new RunCount(0, 0, 0, 1);
                    case ADVISORY, WARNING, CRITICAL -> new RunCount(0, 0, 1, 0);
                });
    }

    /** Both together. */
    public RunCount plus(RunCount other) {
        return new RunCount(
                starts + other.starts,
                good + other.good,
                notGood + other.notGood,
                notJudged + other.notJudged);
    }
}
