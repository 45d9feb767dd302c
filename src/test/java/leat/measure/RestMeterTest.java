package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.Set;
import leat.signal.Channel;
import leat.signal.Gauges;
import leat.signal.Reading;
import leat.signal.SecondMeans;
import org.junit.jupiter.api.Test;

class RestMeterTest {

    private static final long STOP = 1_767_592_800_000_000L;
    private static final long ARM = 10_000_000;
    private static final double FALLING = 0.3;

    private final Gauges gauges = new Gauges(Set.of(Channel.INLET, Channel.BOOSTED));
    private final SecondMeans boosted = new SecondMeans();
    private final RestMeter meter = new RestMeter(ARM, FALLING, true);

    /** The second at which the rest was measured. */
    private int measuredAt(double from, double psiPerSecond) {
        meter.open(STOP);
        for (int second = 1; second <= 600; second++) {
            long at = STOP + second * 1_000_000L;
            double psi = from + psiPerSecond * second;
            gauges.inlet().show(Reading.good(Channel.INLET, at, 40));
            gauges.boosted().show(Reading.good(Channel.BOOSTED, at, psi));
            gauges.pass(at);
            boosted.add(psi);
            Optional<RestSpell> spell = meter.tick(at, gauges, boosted);
            if (spell.isPresent()) {
                return second;
            }
        }
        throw new AssertionError("not measured in ten minutes");
    }

    @Test
    void a_pressure_that_stands_is_measured_as_soon_as_it_may_be() {
        assertThat(measuredAt(3, 0)).isEqualTo(10);
    }

    @Test
    void one_that_rises_because_the_valve_leaks_through_is_not_waited_for() {
        assertThat(measuredAt(3, 0.5)).isEqualTo(10);
    }

    @Test
    void one_that_still_falls_is_waited_for() {
        assertThat(measuredAt(300, -0.5)).isGreaterThan(10);
    }
}
