package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import leat.measure.Absence;
import leat.measure.Measurand;
import leat.measure.Startup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A first-order rise {@code y = H (1 - exp(-t / tau))} takes ln 9 times tau from 10 to 90 %;
 * analytic, the levels as in IEEE Std 181.
 */
class FirstOrderRiseTest {

    @ParameterizedTest
    @ValueSource(doubles = {0.4, 0.6, 0.8, 1.0, 1.5, 2.0})
    void ten_to_ninety_percent_takes_ln_nine_times_tau(double tau) {
        Told told = Told.by(Line.quiet().inlet(42).at(0).hold(8).towards(100, tau, 40));

        Startup startup = told.startups.get(0);
        double rise = Math.log(9) * tau;
        assertThat(startup.riseSeconds().get()).isCloseTo(rise, within(0.01 + 0.02 * rise));
        assertThat(startup.riseFromInletSeconds().get())
                .isCloseTo(rise, within(0.01 + 0.02 * rise));
        assertThat(startup.startTo90Seconds().get())
                .isCloseTo(Math.log(10) * tau, within(0.06 + 0.035 * tau));
        assertThat(startup.figure(Measurand.TIME_TO_DOUBLE).get())
                .isCloseTo(-tau * Math.log(1 - 0.84), within(0.12));
        assertThat(startup.basePsi().get()).isCloseTo(0, within(0.1));
        assertThat(startup.topPsi().get()).isCloseTo(100, within(0.3));
        assertThat(startup.figure(Measurand.OVERSHOOT).get()).isLessThan(0.2);
    }

    @Test
    void dead_time_counts_from_the_run_signal() {
        Line line =
                Line.quiet()
                        .runSignal()
                        .at(0)
                        .hold(8)
                        .running(true)
                        .hold(0.7)
                        .towards(100, 0.6, 40);

        Startup startup = Told.by(line).startups.get(0);

        assertThat(startup.figure(Measurand.DEAD).get()).isCloseTo(0.75, within(0.1));
    }

    @Test
    void a_gap_inside_the_rise_gives_no_rise_time_but_says_why() {
        Line line =
                Line.quiet().at(0).hold(8).towards(60, 0.8, 0.8).silence(0.8).towards(100, 0.8, 40);

        Startup startup = Told.by(line).startups.get(0);

        assertThat(startup.riseSeconds().isPresent()).isFalse();
        assertThat(startup.riseSeconds().absentBecause()).isEqualTo(Absence.GAP_IN_RISE);
    }
}
