package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.bench.scenario.Catalogue;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Test;

/** How steeply the pressure climbs from the inlet's on, over starts of the bench's scenarios. */
class BoostRateTest {

    @Test
    void a_sound_pump_climbs_from_inlet_as_steeply_to_any_level() {
        Startup usual = starts("healthy").get(0);
        Startup high = starts("set-too-high").get(0);

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
    void trapped_air_makes_the_climb_flat_until_it_is_carried_off() {
        List<Startup> starts = starts("air-after-service");

        assertThat(rate(starts.get(0)) / rate(starts.get(4))).isLessThan(0.5);
        assertThat(rate(starts.get(4)) / rate(starts("healthy").get(0))).isBetween(0.9, 1.1);
    }

    private static List<Startup> starts(String name) {
        return BenchFeed.of(Catalogue.find(name).orElseThrow())
                .wiring(Wiring.RUNNING)
                .told()
                .startups;
    }

    private static double rate(Startup start) {
        return start.figure(Measurand.BOOST_RATE).get();
    }
}
