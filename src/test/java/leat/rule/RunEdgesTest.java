package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.phase.Phase;
import leat.rule.RunVerdict.Aspect;
import leat.rule.RunVerdict.Mark;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Where a run that has ended is found bad by its means, and how the time with the jet on or off
 * counts, under {@link OwnLimits}. The limits are those of what is judged each second.
 */
class RunEdgesTest {

    private static final double DOUBT = 1.5;

    @ParameterizedTest
    @CsvSource({
        "LEVEL_LOW, WARNING, LOADED, 100, 60, level.warning, -1",
        "LEVEL_LOW, ADVISORY, LOADED, 100, 60, level.advisory, -1",
        "LEVEL_HIGH, WARNING, UNLOADED, 100, 180, level.high_warning, 1",
        "LEVEL_HIGH, ADVISORY, UNLOADED, 100, 180, level.high_advisory, 1",
        "INLET, CRITICAL, INLET_RUNNING, 60, 0, inlet.critical, -1",
        "INLET, WARNING, INLET_RUNNING, 60, 0, inlet.warning, -1",
        "INLET, ADVISORY, INLET_RUNNING, 60, 0, inlet.advisory, -1"
    })
    void mean_that_breaks_a_limit_by_more_than_its_doubt_is_found(
            Rule rule,
            Grade grade,
            Measurand measurand,
            double good,
            double bad,
            String limit,
            int beyond) {
        double edge =
                Edge.between(
                        good,
                        bad,
                        psi -> {
                            Stand stand = new Stand();
                            stand.run(Map.of(measurand, Figure.of(psi, DOUBT)), 30, true);
                            return stand.stands(rule, grade);
                        });

        assertThat(edge).isCloseTo(OwnLimits.of(limit) + beyond * DOUBT, within(1e-3));
    }

    @Test
    void low_ratio_of_a_run_is_found_only_where_the_level_is_not_reached() {
        double enough = OwnLimits.of("level.set") - OwnLimits.of("level.tolerance");
        double edge =
                Edge.between(
                        100,
                        80,
                        psi -> {
                            Stand stand = new Stand();
                            stand.run(
                                    Map.of(
                                            Measurand.LOADED, Figure.of(psi, DOUBT),
                                            Measurand.RATIO, Figure.of(1.6, 0.05)),
                                    30,
                                    true);
                            return stand.stands(Rule.RATIO, Grade.WARNING);
                        });

        assertThat(edge).isCloseTo(enough - DOUBT, within(1e-3));
    }

    @Test
    void run_that_lasts_is_marked_and_nothing_is_found() {
        Stand stand = new Stand();

        assertThat(stand.run(Map.of(Measurand.LOADED, Figure.of(70, 1)), 30, false))
                .contains(new RunVerdict.Part(Aspect.LOADED, Mark.WARNING));
        assertThat(stand.finding(Rule.LEVEL_LOW)).isEmpty();
    }

    @Test
    void mean_just_below_a_limit_is_no_good_one_and_nobody_is_called() {
        Stand stand = new Stand();
        double psi = OwnLimits.of("level.advisory") - 0.1;

        assertThat(stand.run(Map.of(Measurand.LOADED, Figure.of(psi, 1)), 30, true))
                .contains(new RunVerdict.Part(Aspect.LOADED, Mark.ADVISORY));
        assertThat(stand.finding(Rule.LEVEL_LOW)).isEmpty();
    }

    @Test
    void short_run_that_is_good_for_sure_ends_what_stood() {
        double clear = OwnLimits.of("level.advisory") + OwnLimits.of("level.deadband");
        double edge =
                Edge.between(
                        80,
                        120,
                        psi -> {
                            Stand stand = new Stand();
                            stand.run(Map.of(Measurand.LOADED, Figure.of(70, 1)), 30, true);
                            stand.run(Map.of(Measurand.LOADED, Figure.of(psi, DOUBT)), 30, true);
                            return stand.finding(Rule.LEVEL_LOW).isEmpty();
                        });

        assertThat(edge).isCloseTo(clear + DOUBT, within(1e-3));
    }

    /** The on-delay is in seconds with the jet on: 7 of each 12. */
    @Test
    void low_level_counts_the_seconds_with_the_jet_on_over_the_pauses() {
        Stand stand = new Stand().turn(Phase.STEADY);
        for (int second = 0; second < OwnLimits.of("level.arm"); second++) {
            stand.second(true, 40, 104);
        }
        int on = 0;
        int second = 0;
        while (!stand.stands(Rule.LEVEL_LOW, Grade.WARNING) && second < 300) {
            boolean jet = second++ % 12 < 7;
            on += jet ? 1 : 0;
            stand.second(jet, 40, jet ? 60 : 104);
        }

        double lost = 2.0 * second / 12; // seconds at the changes count for neither
        assertThat(on)
                .isBetween(
                        (int) OwnLimits.of("level.delay"),
                        (int) (OwnLimits.of("level.delay") + lost + 10));
    }

    @Test
    void high_level_counts_the_seconds_with_the_jet_off() {
        Stand stand = new Stand().turn(Phase.STEADY);
        int second = 0;
        while (!stand.stands(Rule.LEVEL_HIGH, Grade.ADVISORY) && second < 400) {
            boolean jet = second++ % 20 < 8;
            stand.second(jet, 40, jet ? 104 : 125);
        }

        double off = second * 12 / 20.0;
        assertThat(off)
                .isBetween(OwnLimits.of("level.high_delay"), OwnLimits.of("level.high_delay") + 30);
    }
}
