package leat.diagnose;

import java.util.List;

/**
 * How often leat was right. Where it had said nothing it was neither right nor wrong; where it had
 * said "unknown" it was not right. Immutable.
 *
 * @param said how often it had named a cause, and somebody found one
 * @param right of these, how often both were the same
 * @param sure how often it had named one with a weight of {@link #SURE} or more
 * @param sureRight of these, how often it was right
 */
public record Score(int said, int right, int sure, int sureRight) {

    /** From this weight on a cause counts as said with certainty; leat's own choice, no source. */
    public static final double SURE = 0.8;

    public static Score of(List<Found> found) {
        List<Found> said = found.stream().filter(one -> one.said().isPresent()).toList();
        List<Found> sure = said.stream().filter(Found::isSure).toList();
        return new Score(said.size(), right(said), sure.size(), right(sure));
    }

    private static int right(List<Found> among) {
        return (int) among.stream().filter(Found::isRight).count();
    }
}
