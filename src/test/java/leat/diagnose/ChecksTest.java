package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import leat.Gear;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class ChecksTest {

    private static final long SEED = 1304;
    private static final int DRAWN = Gear.of(2_000, 20_000);

    private static Map<Cause, Double> alike(Cause... causes) {
        EnumMap<Cause, Double> weights = new EnumMap<>(Cause.class);
        Arrays.stream(causes).forEach(cause -> weights.put(cause, 1.0 / causes.length));
        return weights;
    }

    private static Map<Cause, Double> drawn(Random random) {
        EnumMap<Cause, Double> weights = new EnumMap<>(Cause.class);
        double sum = 0;
        for (Cause cause : Cause.values()) {
            double weight = Math.pow(random.nextDouble(), 6);
            weights.put(cause, weight);
            sum += weight;
        }
        double whole = sum;
        weights.replaceAll((cause, weight) -> weight / whole);
        return weights;
    }

    private static List<Answer> answersDrawn(Random random) {
        List<Answer> answers = new ArrayList<>();
        for (Check check : Check.values()) {
            if (random.nextInt(4) == 0) {
                answers.add(check.answers().get(random.nextInt(2)));
            }
        }
        Collections.shuffle(answers, random);
        return answers;
    }

    @Test
    void each_answer_is_of_one_check_and_each_word_is_said_once() {
        List<Answer> all =
                Arrays.stream(Check.values()).flatMap(check -> check.answers().stream()).toList();

        assertThat(all).containsExactlyInAnyOrder(Answer.values());
        assertThat(all).allMatch(answer -> Check.of(answer).answers().contains(answer));
        assertThat(all).allMatch(answer -> answer.key().matches("[a-z]+(-[a-z]+)*"));
    }

    @Test
    void nothing_is_certain_and_of_the_unknown_no_check_says_anything() {
        for (Check check : Check.values()) {
            for (Cause cause : Cause.values()) {
                assertThat(AnswerTable.first(check, cause))
                        .as("%s, %s", check, cause)
                        .isBetween(AnswerTable.LEAST, AnswerTable.MOST);
            }
            assertThat(AnswerTable.first(check, Cause.UNKNOWN)).isEqualTo(0.5);
        }
    }

    /** What a technician looks at first; common practice, no source. */
    @ParameterizedTest
    @CsvSource({
        "WORN_BOOSTER, SET_LOW, JET_OFF",
        "SET_LOW, WORN_BOOSTER, JET_OFF",
        "VALVE_PART_OPEN, SET_LOW, JET_OFF",
        "WORN_BOOSTER, COUPLING_SLIPS, COUPLING_MARK",
        "WORN_BOOSTER, VALVE_PART_OPEN, SHUT_OFF_VALVE",
        "WEAK_SUPPLY, INLET_OFFSET, DIAL_GAUGE",
        "INLET_OFFSET, WEAK_SUPPLY, DIAL_GAUGE",
        "BOOSTED_OFFSET, SET_LOW, BOTH_GAUGES",
        "BOOSTED_OFFSET, SET_HIGH, BOTH_GAUGES",
        "SET_HIGH, BOOSTED_OFFSET, BOTH_GAUGES",
        "EXTERNAL_LEAK, STRAINER_CLOGGED, WALK_THE_LINE",
        "NOT_TURNING, SET_LOW, SHAFT",
        "NOT_TURNING, WORN_BOOSTER, SHAFT",
        "AIR, EXTERNAL_LEAK, WALK_THE_LINE",
        "AIR, VALVE_SLOW, VALVE_TIMED",
        "VALVE_LEAKS, BOOSTED_OFFSET, HAND_VALVE",
        "BOOSTED_OFFSET, VALVE_LEAKS, HAND_VALVE",
        "VALVE_LEAKS, HEALTHY, HAND_VALVE",
        "FILTERS_CLOGGED, HEALTHY, FILTER_GAUGE",
        "REGULATOR_STICKING, COUPLING_SLIPS, COUPLING_MARK",
        "REGULATOR_STICKING, SET_LOW, REGULATOR",
        "SUPPLY_SHUT, STRAINER_CLOGGED, SUPPLY_VALVE",
        "STRAINER_CLOGGED, WEAK_SUPPLY, HOUSE_PRESSURE",
        "OPEN_LOOP, HEALTHY, WIRING",
        "LOOSE_LOOP, HEALTHY, WIRING",
        "STUCK, HEALTHY, BOTH_GAUGES",
        "SWAPPED, HEALTHY, DIAL_GAUGE",
        "CONFIGURATION, BOOSTED_OFFSET, SETTINGS"
    })
    void the_first_check_is_that_of_the_trade(Cause about, Cause rival, Check check) {
        assertThat(Checks.best(alike(about, rival), about, List.of(), InletGauge.BEFORE_VALVE))
                .contains(check);
    }

    @ParameterizedTest
    @EnumSource(names = {"OPEN_LOOP", "LOOSE_LOOP"})
    void for_a_loop_nobody_is_sent_to_the_water_line(Cause loop) {
        Random random = new Random(SEED);
        Set<Check> offered = EnumSet.noneOf(Check.class);
        for (int i = 0; i < DRAWN; i++) {
            Checks.best(drawn(random), loop, answersDrawn(random), InletGauge.BEFORE_VALVE)
                    .ifPresent(offered::add);
        }

        assertThat(offered).contains(Check.WIRING).isSubsetOf(Check.WIRING, Check.SETTINGS);
    }

    @Test
    void behind_the_valve_or_without_it_the_inlet_gauge_is_not_compared_with_what_is_not_there() {
        Map<Cause, Double> supply = alike(Cause.WEAK_SUPPLY, Cause.INLET_OFFSET);
        Map<Cause, Double> level = alike(Cause.SET_LOW, Cause.BOOSTED_OFFSET);

        assertThat(Checks.best(supply, Cause.WEAK_SUPPLY, List.of(), InletGauge.BEHIND_VALVE))
                .contains(Check.HOUSE_PRESSURE);
        assertThat(Checks.best(level, Cause.SET_LOW, List.of(), InletGauge.NONE))
                .contains(Check.DRAIN_OPEN);
    }

    @Test
    void the_suction_is_compared_with_an_inlet_gauge_before_the_valve_only() {
        assertThat(InletGauge.BEFORE_VALVE.allows(Check.SUCTION)).isTrue();
        assertThat(InletGauge.BEHIND_VALVE.allows(Check.SUCTION)).isFalse();
        assertThat(InletGauge.NONE.allows(Check.SUCTION)).isFalse();
    }

    @Test
    void whether_the_level_recovers_tells_worn_from_set_low() {
        Map<Cause, Double> before = alike(Cause.WORN_BOOSTER, Cause.SET_LOW);

        assertThat(Checks.answered(before, List.of(Answer.RECOVERS)).get(Cause.WORN_BOOSTER))
                .isCloseTo(0.95 / (0.95 + 0.04), within(1e-12));
        assertThat(Checks.answered(before, List.of(Answer.STAYS_LOW)).get(Cause.SET_LOW))
                .isCloseTo(0.96 / (0.96 + 0.05), within(1e-12));
    }

    @Test
    void of_two_answers_to_one_check_the_newest_holds() {
        Map<Cause, Double> before = alike(Cause.WORN_BOOSTER, Cause.SET_LOW, Cause.AIR);

        assertThat(Checks.answered(before, List.of(Answer.RECOVERS, Answer.STAYS_LOW)))
                .isEqualTo(Checks.answered(before, List.of(Answer.STAYS_LOW)));
    }

    @Test
    void an_answer_given_twice_is_given_once_and_the_order_of_answers_says_nothing() {
        Random random = new Random(SEED);
        for (int i = 0; i < DRAWN; i++) {
            Map<Cause, Double> before = drawn(random);
            List<Answer> answers = answersDrawn(random);
            List<Answer> again = new ArrayList<>(answers);
            again.addAll(answers);
            Collections.shuffle(again, random);

            Map<Cause, Double> after = Checks.answered(before, answers);

            assertThat(Checks.answered(before, again)).isEqualTo(after);
            assertThat(after.values().stream().mapToDouble(weight -> weight).sum())
                    .isCloseTo(1, within(1e-9));
            assertThat(after.keySet()).isEqualTo(before.keySet());
        }
    }

    @Test
    void a_cause_without_weight_gets_none_by_an_answer() {
        Map<Cause, Double> before = Map.of(Cause.AIR, 0.0, Cause.SET_LOW, 1.0);

        assertThat(Checks.answered(before, List.of(Answer.AIR_CAME)))
                .containsEntry(Cause.AIR, 0.0)
                .containsEntry(Cause.SET_LOW, 1.0);
    }

    /** On the average over both answers the right cause is not weighed less than before. */
    @Test
    void no_check_tells_less_than_nothing() {
        Random random = new Random(SEED);
        for (int i = 0; i < DRAWN; i++) {
            Map<Cause, Double> weights = drawn(random);
            for (Check check : Check.values()) {
                Cause about = Cause.values()[random.nextInt(Cause.values().length)];
                assertThat(Checks.bits(check, weights, about)).isBetween(0.0, 1.0);
                assertThat(InformationGain.of(weights, cause -> AnswerTable.first(check, cause)))
                        .isBetween(0.0, 1.0);
            }
        }
    }

    @Test
    void a_check_whose_answers_are_as_likely_under_all_that_it_could_be_is_never_offered() {
        Random random = new Random(SEED);
        int offered = 0;
        for (int i = 0; i < DRAWN; i++) {
            List<Cause> causes = new ArrayList<>(EnumSet.complementOf(EnumSet.of(Cause.UNKNOWN)));
            Collections.shuffle(causes, random);
            List<Cause> could = causes.subList(0, 2 + random.nextInt(3));
            Map<Cause, Double> weights = alike(could.toArray(Cause[]::new));

            Optional<Check> check =
                    Checks.best(weights, could.get(0), List.of(), InletGauge.BEFORE_VALVE);

            if (check.isPresent()) {
                offered++;
                assertThat(
                                could.stream()
                                        .map(cause -> AnswerTable.first(check.get(), cause))
                                        .collect(Collectors.toSet()))
                        .as("%s of %s", check, could)
                        .hasSizeGreaterThan(1);
            }
        }
        assertThat(offered).isGreaterThan(DRAWN / 2);
    }

    @Test
    void what_was_answered_is_not_asked_again_until_nothing_is_left_to_ask() {
        Map<Cause, Double> weights =
                alike(Cause.WORN_BOOSTER, Cause.COUPLING_SLIPS, Cause.SET_LOW, Cause.AIR);
        Set<Check> asked = new HashSet<>();
        List<Answer> answers = new ArrayList<>();
        Optional<Check> next;
        while ((next = Checks.best(weights, Cause.WORN_BOOSTER, answers, InletGauge.BEFORE_VALVE))
                .isPresent()) {
            assertThat(asked.add(next.get())).isTrue();
            answers.add(next.get().answers().get(0));
        }
        assertThat(asked).hasSizeBetween(3, Check.values().length - 1);
    }

    @Test
    void nobody_is_asked_to_run_a_booster_that_may_be_starved() {
        Map<Cause, Double> weights =
                Map.of(Cause.WORN_BOOSTER, 0.5, Cause.SET_LOW, 0.35, Cause.SUPPLY_SHUT, 0.15);
        List<Answer> answers = new ArrayList<>();
        Optional<Check> next;
        while ((next = Checks.best(weights, Cause.WORN_BOOSTER, answers, InletGauge.BEFORE_VALVE))
                .isPresent()) {
            assertThat(next.get())
                    .isNotIn(
                            Check.JET_OFF,
                            Check.REGULATOR,
                            Check.COUPLING_MARK,
                            Check.BYPASS,
                            Check.LISTEN,
                            Check.SUCTION);
            answers.add(next.get().answers().get(0));
        }
    }

    @Test
    void a_sound_machine_needs_no_check() {
        assertThat(
                        Checks.best(
                                alike(Cause.HEALTHY, Cause.AIR),
                                Cause.HEALTHY,
                                List.of(),
                                InletGauge.BEFORE_VALVE))
                .isEmpty();
    }

    /** Before a pump is taken off somebody looks whether it is so. */
    @ParameterizedTest
    @EnumSource(
            value = Cause.class,
            mode = EnumSource.Mode.EXCLUDE,
            names = {"HEALTHY", "UNKNOWN"})
    void a_cause_that_is_nearly_certain_still_has_a_check_that_confirms_it(Cause cause) {
        Map<Cause, Double> weights = Map.of(cause, 0.98, Cause.HEALTHY, 0.02);

        assertThat(Checks.best(weights, cause, List.of(), InletGauge.BEFORE_VALVE)).isPresent();
        assertThat(Checks.best(Map.of(cause, 1.0), cause, List.of(), InletGauge.BEFORE_VALVE))
                .isPresent();
    }

    @Test
    void of_what_fits_nothing_the_check_is_asked_for_that_tells_most_of_what_is_known() {
        Map<Cause, Double> weights =
                Map.of(Cause.UNKNOWN, 0.6, Cause.WORN_BOOSTER, 0.2, Cause.SET_LOW, 0.2);

        assertThat(Checks.best(weights, Cause.UNKNOWN, List.of(), InletGauge.BEFORE_VALVE))
                .contains(Check.JET_OFF);
    }
}
