package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import leat.report.Json;
import leat.rule.StartupVerdict.Outcome;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.Entry;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** What each kind of work does to how a machine is judged. Every line here is invented. */
class WorkTest {

    @ParameterizedTest
    @EnumSource(
            value = Entry.class,
            names = {"SERVICED", "PUMP_REPLACED", "FILTER_CHANGED", "STRAINER_CLEANED"})
    void where_the_line_was_opened_the_next_starts_may_be_slow(Entry entry) {
        assertThat(verdictOfASlowStartAfter(entry)).isEqualTo(Outcome.RELAXED);
    }

    @ParameterizedTest
    @EnumSource(
            value = Entry.class,
            names = {"REGULATOR_TURNED", "TRANSDUCER_CHANGED", "COUPLING_GAP", "AIR_PURGED"})
    void where_it_stayed_shut_a_slow_start_is_a_slow_start(Entry entry) {
        assertThat(verdictOfASlowStartAfter(entry)).isEqualTo(Outcome.VERY_SLOW);
    }

    private static Outcome verdictOfASlowStartAfter(Entry entry) {
        Line line = Line.quiet().at(0).hold(10);
        note(line, entry).hold(5).towards(100, 4, 60);
        return Told.by(line).verdicts.get(0).outcome();
    }

    @ParameterizedTest
    @CsvSource({
        "PUMP_REPLACED, 'no baseline, the machine was serviced: learning, 0 of 10'",
        "FILTER_CHANGED, 'no baseline, the machine was serviced: learning, 0 of 10'",
        "STRAINER_CLEANED, 'no baseline, the machine was serviced: learning, 0 of 10'",
        "REGULATOR_TURNED, 'no baseline, a setting or a gauge was changed: learning, 0 of 10'",
        "TRANSDUCER_CHANGED, 'no baseline, a setting or a gauge was changed: learning, 0 of 10'"
    })
    void what_changes_the_numbers_has_them_learned_anew(Entry entry, String words) {
        Told told = Told.by(note(learned(), entry).hold(2));

        assertThat(Json.IN_PSI.learning(told.learnings.get(told.learnings.size() - 1)))
                .isEqualTo(words);
    }

    @ParameterizedTest
    @EnumSource(
            value = Entry.class,
            names = {"COUPLING_GAP", "AIR_PURGED", "NOTE", "ANSWER"})
    void what_changes_no_number_leaves_the_baseline(Entry entry) {
        Told before = Told.by(learned().hold(2));

        Told told = Told.by(note(learned(), entry).hold(2));

        assertThat(told.baselines).hasSize(1);
        assertThat(told.learnings).hasSameSizeAs(before.learnings);
    }

    private static Line learned() {
        Line line = Line.withSeed(1).at(0).hold(12);
        for (int i = 0; i < 10; i++) {
            line.towards(100, 0.6, 22).towards(0, 1, 25);
        }
        return line;
    }

    private static Line note(Line line, Entry entry) {
        String found = entry == Entry.ANSWER ? "recovers" : "";
        return line.input(
                new Instruction(line.now(), "kim", new Order.Journal(entry, "new", found)));
    }
}
