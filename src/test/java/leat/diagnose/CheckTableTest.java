package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import leat.Gear;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Where two gauges cannot tell, the checks that are offered can: a small {@link CheckTable}. */
class CheckTableTest {

    private static final int TIMES = Gear.of(400, 5_000);

    /** Share in which the first cause should be right. */
    private static final double MARK = 0.95;

    /**
     * Three causes are told by two questions, and the second opinion on them is a fourth check:
     * after three it falls short of the mark, and is kept at what it reaches.
     */
    private static final Set<Cause> SHORT_OF_THE_MARK =
            EnumSet.of(Cause.WORN_BOOSTER, Cause.COUPLING_SLIPS, Cause.SET_LOW);

    private static final double SHORT = 0.92;

    private static final List<CheckTable.Result> RESULTS = new ArrayList<>();

    @BeforeAll
    static void measure() {
        for (UnseparableGroup group : UnseparableGroup.ALL) {
            RESULTS.add(CheckTable.of(group, TIMES, 1));
        }
    }

    /** Three standard deviations of what chance alone leaves. */
    private static double chance(double share) {
        return 3 * Math.sqrt(share * (1 - share) / TIMES);
    }

    private static double reached(CheckTable.Result result) {
        return result.right().get(CheckTable.MOST_CHECKS);
    }

    private static boolean isShort(CheckTable.Result result) {
        return Set.copyOf(result.group().causes()).equals(SHORT_OF_THE_MARK);
    }

    @Test
    void before_any_check_causes_that_show_alike_are_not_told_apart() {
        for (CheckTable.Result result : RESULTS) {
            assertThat(result.right().get(0)).as(result.group().about()).isLessThan(0.75);
        }
    }

    @Test
    void with_three_checks_the_first_cause_is_right_in_nineteen_of_twenty() {
        for (CheckTable.Result result : RESULTS) {
            double mark = isShort(result) ? SHORT : MARK;
            assertThat(reached(result))
                    .as(result.group().about())
                    .isGreaterThan(mark - chance(mark));
        }
    }

    /** Of two causes one answer decides; of three it leaves two. */
    @Test
    void the_first_check_that_is_offered_tells_most() {
        for (CheckTable.Result result : RESULTS) {
            double mark = result.group().causes().size() == 2 ? 0.9 : 0.7;
            assertThat(result.right().get(1))
                    .as(result.group().about())
                    .isGreaterThan(mark - chance(mark));
        }
    }

    /** Nobody walks to the machine for half a day. */
    @Test
    void three_checks_are_made_within_an_hour() {
        for (CheckTable.Result result : RESULTS) {
            assertThat(result.minutes()).as(result.group().about()).isBetween(1.0, 60.0);
            assertThat(result.checks()).as(result.group().about()).isBetween(1.0, 3.0);
        }
    }

    /** What the table does not know: that people err twice as often as it has them err. */
    @Test
    void people_who_err_twice_as_often_are_still_right_in_more_than_six_of_seven() {
        double before = 0;
        double after = 0;
        for (UnseparableGroup group : UnseparableGroup.ALL) {
            CheckTable.Result result = CheckTable.of(group, TIMES / 4, 2);
            before += result.right().get(0) / UnseparableGroup.ALL.size();
            after += reached(result) / UnseparableGroup.ALL.size();
        }
        assertThat(before).isLessThan(0.7);
        assertThat(after).isGreaterThan(6 / 7.0);
    }
}
