package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** How often leat was right; each line is an invented finding. */
class ScoreTest {

    @Test
    void nothing_found_is_no_score() {
        assertThat(Score.of(List.of())).isEqualTo(new Score(0, 0, 0, 0));
    }

    @Test
    void right_is_what_was_named_first() {
        List<Found> found =
                List.of(
                        found(Cause.WORN_BOOSTER, said(Cause.WORN_BOOSTER, 0.84)),
                        found(Cause.AIR, said(Cause.AIR, 0.5)),
                        found(Cause.AIR, said(Cause.EXTERNAL_LEAK, 0.6)),
                        found(Cause.HEALTHY, said(Cause.SET_LOW, 0.9)));

        assertThat(Score.of(found)).isEqualTo(new Score(4, 2, 2, 1));
    }

    @Test
    void what_is_said_with_just_four_fifths_is_said_with_certainty() {
        List<Found> found =
                List.of(
                        found(Cause.AIR, said(Cause.AIR, Score.SURE)),
                        found(Cause.AIR, said(Cause.AIR, Math.nextDown(Score.SURE))));

        assertThat(Score.of(found)).isEqualTo(new Score(2, 2, 1, 1));
    }

    @Test
    void unknown_is_not_right_and_nothing_seen_is_not_wrong() {
        List<Found> found =
                List.of(
                        found(Cause.AIR, said(Cause.UNKNOWN, 0.7)),
                        found(Cause.AIR, Optional.empty()));

        assertThat(Score.of(found)).isEqualTo(new Score(1, 0, 0, 0));
    }

    private static Found found(Cause cause, Optional<Suspect> said) {
        return new Found("jet-1", 0, cause, said);
    }

    private static Optional<Suspect> said(Cause cause, double weight) {
        return Optional.of(new Suspect(cause, weight, List.of(), List.of(), Optional.empty()));
    }
}
