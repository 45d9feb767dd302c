package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import leat.phase.Phase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Where each finding that is judged each second comes and goes, and after how long, found by trying
 * under {@link OwnLimits}. What is expected is written from what the settings table says of each
 * limit ({@code config/settings.md}, phrases {@code meaning.*}), not from the judges; the figures
 * themselves are facts of the trade or own choice, as that table says.
 */
class EdgesTest {

    /**
     * What is judged each second. {@code good} and {@code bad} are values of what the gauges show
     * with one edge between them. Further numbers are the pressure that the other gauge shows; the
     * 3 psi are 0.05 of 60, the deadband of the share, which is no setting (decision 0004).
     */
    static final String EACH_SECOND =
            """
            INLET      CRITICAL INLET            60  0  | inlet.critical               | inlet.critical + inlet.deadband                  | inlet.arm | inlet.critical_delay | inlet.off_delay
            INLET      WARNING  INLET            60  0  | inlet.warning                | inlet.warning + inlet.deadband                   | inlet.arm | inlet.delay          | inlet.off_delay
            INLET      ADVISORY INLET            60  0  | inlet.advisory               | inlet.advisory + inlet.deadband                  | inlet.arm | inlet.delay          | inlet.off_delay
            RATIO      CRITICAL RATIO             3  1  | ratio.critical               | ratio.critical_clear                             | ratio.arm | ratio.critical_delay | ratio.off_delay
            RATIO      WARNING  RATIO             3  1  | ratio.warning                | ratio.warning_clear                              | ratio.arm | ratio.warning_delay  | ratio.off_delay
            RATIO      CRITICAL BOOSTED_OF_80   100 80  | level.set - level.tolerance  | level.set - level.tolerance + level.deadband     | ratio.arm | ratio.critical_delay | ratio.off_delay
            RATIO      WARNING  BOOSTED_OF_55   100 80  | level.set - level.tolerance  | level.set - level.tolerance + level.deadband     | ratio.arm | ratio.warning_delay  | ratio.off_delay
            RATIO      CRITICAL BOTH_RUNNING     12 60  | ratio.min_inlet              | never                                            | ratio.arm | ratio.critical_delay | never
            LEVEL_LOW  WARNING  BOOSTED_OF_12   100 60  | level.warning                | level.warning + level.deadband                   | level.arm | level.delay          | level.off_delay
            LEVEL_LOW  ADVISORY BOOSTED_OF_12   100 60  | level.advisory               | level.advisory + level.deadband                  | level.arm | level.delay          | level.off_delay
            LEVEL_HIGH WARNING  BOOSTED_OF_12   100 180 | level.high_warning           | level.high_warning - level.high_deadband         | level.arm | level.high_delay     | level.off_delay
            LEVEL_HIGH ADVISORY BOOSTED_OF_12   100 180 | level.high_advisory          | level.high_advisory - level.high_deadband        | level.arm | level.high_delay     | level.off_delay
            REST       ADVISORY REST_OF_12        0 9   | rest.advisory                | rest.clear                                       | rest.arm  | rest.delay           | rest.off_delay
            REST       WARNING  REST_OF_60       20 50  | rest.warning_share * 60      | rest.warning_share * 60 - 3                      | rest.arm  | rest.delay           | rest.off_delay
            REST       WARNING  REST_OF_60      100 50  | ratio.critical * 60          | ratio.critical_clear * 60                        | rest.arm  | rest.delay           | rest.off_delay
            REST       WARNING  BOTH_AT_REST      8 60  | rest.min_inlet               | rest.min_inlet                                   | rest.arm  | rest.delay           | rest.off_delay
            """;

    /** Limits that tests here look at by name. */
    static final String ALONE = "rest.falling rest.bleeds inlet.latch";

    private static final int LONG_ENOUGH = 80;

    /** One row of {@link #EACH_SECOND}. */
    private record Row(
            Rule rule,
            Grade grade,
            Shown shown,
            double good,
            double bad,
            String comes,
            String goes,
            String arm,
            String on,
            String off) {

        static Row of(String line) {
            String[] cell = line.trim().split(" *\\| *");
            String[] first = cell[0].split(" +");
            return new Row(
                    Rule.valueOf(first[0]),
                    Grade.valueOf(first[1]),
                    Shown.valueOf(first[2]),
                    Double.parseDouble(first[3]),
                    Double.parseDouble(first[4]),
                    cell[1],
                    cell[2],
                    cell[3],
                    cell[4],
                    cell[5]);
        }

        /** Just beyond the level at which it comes. */
        double broken() {
            return OwnLimits.sum(comes) + 1e-6 * (bad - good);
        }

        /** Just beyond the level at which it goes. */
        double cleared() {
            return OwnLimits.sum(goes) - 1e-6 * (bad - good);
        }

        boolean stands(Stand stand) {
            return stand.stands(rule, grade);
        }

        /** Long good, and long beyond every arming. */
        Stand heldGood() {
            Stand stand = shown.stand();
            shown.hold(stand, good, 30);
            return stand;
        }

        Stand heldBroken() {
            Stand stand = heldGood();
            shown.hold(stand, broken(), LONG_ENOUGH);
            return stand;
        }

        @Override
        public String toString() {
            return rule.key() + " " + grade + " by " + shown + " " + comes;
        }
    }

    static Stream<Row> rows() {
        return EACH_SECOND.lines().map(Row::of);
    }

    static Stream<Row> rowsThatGo() {
        return rows().filter(row -> !row.goes().equals("never"));
    }

    private static int secondsUntil(Row row, boolean stands, Stand stand, double value) {
        return Edge.secondsUntil(
                () -> row.stands(stand) == stands, () -> row.shown().hold(stand, value, 1));
    }

    @ParameterizedTest
    @MethodSource("rows")
    void a_finding_comes_at_its_own_limit(Row row) {
        double comes =
                Edge.between(
                        row.good(),
                        row.bad(),
                        x -> {
                            Stand stand = row.heldGood();
                            row.shown().hold(stand, x, LONG_ENOUGH);
                            return row.stands(stand);
                        });

        assertThat(comes).isCloseTo(OwnLimits.sum(row.comes()), within(1e-4));
    }

    @ParameterizedTest
    @MethodSource("rowsThatGo")
    void a_finding_goes_at_its_own_clear_level(Row row) {
        double goes =
                Edge.between(
                        row.bad(),
                        row.good(),
                        x -> {
                            Stand stand = row.heldBroken();
                            row.shown().hold(stand, x, LONG_ENOUGH);
                            return !row.stands(stand);
                        });

        assertThat(row.stands(row.heldBroken())).isTrue();
        assertThat(goes).isCloseTo(OwnLimits.sum(row.goes()), within(1e-4));
    }

    @ParameterizedTest
    @MethodSource("rows")
    void a_finding_waits_from_the_turn_of_the_machine_for_its_own_arming_and_on_delay(Row row) {
        Stand stand = row.shown().stand();

        int seconds = secondsUntil(row, true, stand, row.broken());

        assertThat(seconds).isEqualTo((int) OwnLimits.sum(row.arm() + " + " + row.on()));
    }

    @ParameterizedTest
    @MethodSource("rows")
    void a_clock_step_gives_a_finding_its_whole_on_delay_again(Row row) {
        Stand stand = row.heldGood();
        row.shown().hold(stand, row.broken(), (int) OwnLimits.sum(row.on()));
        assertThat(row.stands(stand)).isFalse();
        stand.stepClock(1);

        int seconds = secondsUntil(row, true, stand, row.broken());

        assertThat(seconds).isBetween(1 + (int) OwnLimits.sum(row.on()), LONG_ENOUGH);
    }

    @ParameterizedTest
    @MethodSource("rowsThatGo")
    void a_finding_goes_after_its_own_off_delay_and_a_clock_step_begins_that_afresh(Row row) {
        int off = (int) OwnLimits.sum(row.off());
        Stand stand = row.heldBroken();
        Stand stepped = row.heldBroken();
        row.shown().hold(stepped, row.cleared(), off);
        stepped.stepClock(1);

        int seconds = secondsUntil(row, false, stand, row.cleared());
        int again = secondsUntil(row, false, stepped, row.cleared());

        assertThat(List.of(seconds, again)).containsOnly(1 + off); // it begins with the first
    }

    @Test
    void a_pressure_that_falls_faster_than_its_limit_is_still_on_its_way_down() {
        double falling =
                Edge.between(
                        1,
                        0,
                        psiPerSecond -> {
                            Stand stand = new Stand().turn(Phase.REST);
                            for (int i = 0; i < 60; i++) {
                                stand.second(10, 90 - psiPerSecond * i);
                            }
                            return stand.stands(Rule.REST, Grade.ADVISORY);
                        });

        assertThat(falling).isCloseTo(OwnLimits.of("rest.falling"), within(1e-4));
    }

    @Test
    void a_line_without_a_bleed_is_not_judged_at_rest() {
        Map<Limit, Double> limits = new EnumMap<>(OwnLimits.BY_LIMIT);
        limits.put(Limit.REST_BLEEDS, 0.0);
        Stand stand = new Stand(Limits.with(limits), Optional.empty()).turn(Phase.REST);

        Shown.REST_OF_60.hold(stand, 60, LONG_ENOUGH);

        assertThat(stand.finding(Rule.REST)).isEmpty();
    }

    @Test
    void a_starved_inlet_latches_where_the_setting_says_so() {
        Stand stand = new Stand().turn(Phase.STEADY);
        Shown.INLET.hold(stand, 0, LONG_ENOUGH);

        Finding starved = stand.finding(Rule.INLET).orElseThrow();

        assertThat(OwnLimits.ALL.latches(starved)).isTrue();
        assertThat(Limits.DEFAULTS.latches(starved)).isFalse();
    }
}
