package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.wire.StateBytes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What people did and answered, and for how long it counts. Every story here is invented. */
class WorkDoneTest {

    private static final long DAY = 86_400_000_000L;
    private static final long MONDAY = 1_767_592_800_000_000L;

    private final WorkDone work = new WorkDone();

    @Test
    void of_a_machine_that_nobody_touched_nothing_is_known() {
        assertThat(work.priors(MONDAY)).isEqualTo(Priors.NONE);
        assertThat(work.answers(MONDAY)).isEmpty();
    }

    @Test
    void after_a_new_pump_air_comes_first_for_three_starts() {
        did(MONDAY, Entry.PUMP_REPLACED);
        starts(3);
        assertThat(work.priors(MONDAY + 1).factor(Cause.AIR)).isEqualTo(12);

        starts(1);

        assertThat(work.priors(MONDAY + 1).factor(Cause.AIR)).isEqualTo(1);
    }

    @Test
    void a_new_pump_is_hardly_worn_for_a_quarter_but_its_coupling_may_slip() {
        did(MONDAY, Entry.PUMP_REPLACED);
        starts(100);

        Priors soon = work.priors(MONDAY + 20 * DAY);
        Priors late = work.priors(MONDAY + 90 * DAY);

        assertThat(soon.factor(Cause.WORN_BOOSTER)).isEqualTo(0.2);
        assertThat(soon.factor(Cause.COUPLING_SLIPS)).isEqualTo(4);
        assertThat(late).isEqualTo(Priors.NONE);
    }

    @Test
    void the_newest_work_that_says_something_of_a_cause_holds() {
        did(MONDAY, Entry.SERVICED);
        did(MONDAY + 1, Entry.AIR_PURGED);
        assertThat(work.priors(MONDAY + 2).factor(Cause.AIR)).isEqualTo(0.4);

        did(MONDAY + 2, Entry.FILTER_CHANGED);

        assertThat(work.priors(MONDAY + 3).factor(Cause.AIR)).isEqualTo(12);
    }

    /** The service is ended after the purge, but the line was opened before it. */
    @Test
    void a_line_that_was_purged_in_the_course_of_a_service_is_purged() {
        did(MONDAY, Entry.SERVICE_ON);
        did(MONDAY + 1, Entry.PUMP_REPLACED);
        did(MONDAY + 2, Entry.AIR_PURGED);
        did(MONDAY + 3, Entry.SERVICE_OFF);

        assertThat(work.priors(MONDAY + 4).factor(Cause.AIR)).isEqualTo(0.4);
        assertThat(work.priors(MONDAY + 4).factor(Cause.EXTERNAL_LEAK)).isEqualTo(3);
    }

    @Test
    void starts_in_the_course_of_a_service_do_not_use_up_the_air() {
        did(MONDAY, Entry.SERVICE_ON);
        starts(5);
        did(MONDAY + 3, Entry.SERVICE_OFF);

        assertThat(work.priors(MONDAY + 4).factor(Cause.AIR)).isEqualTo(12);
    }

    @Test
    void an_answer_counts_for_a_week() {
        answered(MONDAY, "stays-low");

        assertThat(work.answers(MONDAY + 7 * DAY - 1)).containsExactly(Answer.STAYS_LOW);
        assertThat(work.answers(MONDAY + 7 * DAY)).isEmpty();
    }

    @Test
    void an_answer_takes_the_place_of_the_other_one_to_the_same_check() {
        answered(MONDAY, "stays-low");
        answered(MONDAY + 1, "all-dry");
        answered(MONDAY + 2, "recovers");

        assertThat(work.answers(MONDAY + 3)).containsExactly(Answer.ALL_DRY, Answer.RECOVERS);
    }

    @Test
    void an_answer_that_no_check_has_says_nothing() {
        answered(MONDAY, "worn-booster");

        assertThat(work.answers(MONDAY)).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(
            value = Entry.class,
            mode = EnumSource.Mode.EXCLUDE,
            names = {"ANSWER", "NOTE", "SERVICE_ON"})
    void work_puts_an_end_to_what_was_answered_before(Entry entry) {
        answered(MONDAY, "recovers");

        did(MONDAY + 1, entry);

        assertThat(work.answers(MONDAY + 2)).isEmpty();
    }

    @Test
    void a_clock_that_is_set_makes_nothing_older() {
        did(MONDAY, Entry.PUMP_REPLACED);
        answered(MONDAY, "recovers");

        work.step(MONDAY + 1, MONDAY + 100 * DAY);

        assertThat(work.priors(MONDAY + 100 * DAY).factor(Cause.WORN_BOOSTER)).isEqualTo(0.2);
        assertThat(work.answers(MONDAY + 100 * DAY)).containsExactly(Answer.RECOVERS);
    }

    @Test
    void what_is_known_survives_a_restart() {
        did(MONDAY, Entry.PUMP_REPLACED);
        starts(2);
        answered(MONDAY + 1, "recovers");
        WorkDone again = new WorkDone();

        StateBytes.into(1, StateBytes.of(1, work::keep), again::keep);

        again.started();
        assertThat(again.priors(MONDAY + 2)).isEqualTo(work.priors(MONDAY + 2));
        assertThat(again.answers(MONDAY + 2)).containsExactly(Answer.RECOVERS);
        again.started();
        assertThat(again.priors(MONDAY + 2).factor(Cause.AIR)).isEqualTo(1);
    }

    /** Each says something, and no two rows of one kind of work speak of the same cause. */
    @ParameterizedTest
    @EnumSource(Entry.class)
    void a_kind_of_work_says_at_most_one_thing_of_a_cause(Entry entry) {
        var causes =
                WorkTable.ROWS.stream()
                        .filter(row -> row.after().contains(entry))
                        .map(WorkTable.Row::cause)
                        .toList();

        assertThat(causes).doesNotHaveDuplicates();
        assertThat(causes.isEmpty()).isEqualTo(!entry.beginsAnew() || entry == Entry.LEARN);
    }

    @Test
    void no_factor_is_so_strong_that_evidence_could_not_overrule_it() {
        assertThat(WorkTable.ROWS)
                .allSatisfy(row -> assertThat(row.factor()).isBetween(0.1, 12.0).isNotEqualTo(1));
    }

    private void did(long atMicros, Entry entry) {
        work.noted(atMicros, new Order.Journal(entry, ""));
    }

    private void answered(long atMicros, String answer) {
        work.noted(atMicros, new Order.Journal(Entry.ANSWER, "", answer));
    }

    private void starts(int count) {
        for (int i = 0; i < count; i++) {
            work.started();
        }
    }
}
