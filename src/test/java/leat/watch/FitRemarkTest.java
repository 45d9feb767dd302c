package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.Gear;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Scenario;
import leat.measure.Measurand;
import leat.measure.Startup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is said of the shape of a climb, over the starts of the bench's scenarios. */
class FitRemarkTest {

    private static final String RAMP = "from the inlet pressure on it is a straight ramp";

    static List<String> scenarios() {
        return Gear.everyNth(
                3,
                Catalogue.all().stream()
                        .filter(scenario -> !scenario.isLong())
                        .map(Scenario::name)
                        .toList());
    }

    @ParameterizedTest
    @MethodSource("scenarios")
    void a_start_without_a_fitted_curve_has_a_remark_that_says_why(String name) {
        List<Startup> starts = starts(name);

        assertThat(starts).isNotEmpty().allMatch(FitTable::isExplained);
    }

    @Test
    void the_boost_of_a_sound_vane_pump_is_a_straight_ramp_at_any_level() {
        Startup usual = starts("healthy").get(0);
        Startup high = starts("set-too-high").get(1);

        assertThat(FitTable.why(usual)).isEqualTo(FitTable.why(high)).isEqualTo(RAMP);
        assertThat(high.topPsi().get()).isGreaterThan(1.2 * usual.topPsi().get());
        assertThat(rate(high) / rate(usual)).isBetween(0.9, 1.1);
    }

    @Test
    void a_worn_pump_climbs_from_inlet_much_more_slowly() {
        Startup sound = starts("healthy").get(0);
        Startup worn = starts("worn-booster").get(0);

        assertThat(rate(worn) / rate(sound)).isBetween(0.5, 0.7);
    }

    @Test
    void trapped_air_makes_the_climb_ever_faster_until_it_is_carried_off() {
        List<Startup> starts = starts("air-after-service");

        assertThat(FitTable.why(starts.get(0)))
                .isEqualTo("from the inlet pressure on it gets ever faster");
        assertThat(FitTable.why(starts.get(4))).isEqualTo(RAMP);
    }

    private static List<Startup> starts(String name) {
        return FitTable.starts(Catalogue.find(name).orElseThrow());
    }

    private static double rate(Startup start) {
        return start.figure(Measurand.BOOST_RATE).get();
    }
}
