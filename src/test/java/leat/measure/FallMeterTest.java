package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import leat.measure.absence.Absence;
import org.junit.jupiter.api.Test;

class FallMeterTest {

    private static final double TAU = 2;

    private static final long STOP = 100_000_000;

    /** Readings from the stop until it is seen. */
    private static final int SEEN = 8;

    private final Curve before = new Curve();
    private final FallMeter fall = new FallMeter();
    private final Random noise = new Random(7);

    /** Analytic: an exponential fall from 90 to 40 % takes tau ln(90 / 40). */
    @Test
    void an_exponential_fall_takes_its_time_constant_times_ln_2_25() {
        play(-5, 10, t -> t < 0 ? 100 : 100 * Math.exp(-t / TAU));

        Figure seconds = fall.end(Absence.DID_NOT_FALL);

        assertThat(seconds.get())
                .isCloseTo(TAU * Math.log(90 / 40.0), within(seconds.uncertainty().getAsDouble()));
    }

    @Test
    void strokes_before_the_stop_do_not_begin_the_fall() {
        play(
                -5,
                10,
                t -> t < 0 ? 100 + 4 * Math.sin(2 * Math.PI * 0.9 * t) : 100 * Math.exp(-t / TAU));

        assertThat(fall.end(Absence.DID_NOT_FALL).get())
                .isCloseTo(TAU * Math.log(90 / 40.0), within(0.1));
    }

    /** From pressures alone a stop shows when a quarter of the pressure is gone. */
    @Test
    void a_stop_that_shows_late_begins_the_fall_where_the_pressure_began_to() {
        play(-5, 10, t -> t < -1.3 ? 100 : 100 * Math.exp(-(t + 1.3) / TAU));

        assertThat(fall.end(Absence.DID_NOT_FALL).get())
                .isCloseTo(TAU * Math.log(90 / 40.0), within(0.1));
    }

    /** The level of a long time ago, with the jet off, is not what it fell from. */
    @Test
    void the_fall_begins_at_the_level_under_the_last_strokes() {
        play(
                -5,
                10,
                t ->
                        t < -2
                                ? 100
                                : t < 0
                                        ? 75 + 3 * Math.sin(2 * Math.PI * 0.9 * t)
                                        : 75 * Math.exp(-t / TAU));

        assertThat(fall.end(Absence.DID_NOT_FALL).get())
                .isCloseTo(TAU * Math.log(90 / 40.0), within(0.15));
    }

    @Test
    void a_climb_that_was_broken_off_falls_from_what_it_had_reached() {
        play(-5, 10, t -> t < -1.5 ? 0 : t < 0 ? 60 * (t + 1.5) : 90 * Math.exp(-t / TAU));

        assertThat(fall.end(Absence.DID_NOT_FALL).get())
                .isCloseTo(TAU * Math.log(90 / 40.0), within(0.1));
    }

    @Test
    void a_pressure_that_stays_has_no_fall() {
        play(-5, 10, t -> 100);

        assertThat(fall.end(Absence.DID_NOT_FALL).absentBecause()).isEqualTo(Absence.DID_NOT_FALL);
    }

    @Test
    void nothing_is_told_of_a_fall_with_a_gap_in_it() {
        play(-5, 0.5, t -> t < 0 ? 100 : 100 * Math.exp(-t / TAU));
        play(2.5, 10, t -> 100 * Math.exp(-t / TAU));

        assertThat(fall.end(Absence.DID_NOT_FALL).absentBecause()).isEqualTo(Absence.GAP_IN_FALL);
    }

    @Test
    void nor_of_one_that_begins_with_a_gap() {
        play(-5, 0.45, t -> 100);
        play(1.8, 10, t -> 100 * Math.exp(-(t - 0.4) / TAU));

        assertThat(fall.end(Absence.DID_NOT_FALL).absentBecause()).isEqualTo(Absence.GAP_IN_FALL);
    }

    @Test
    void from_a_low_level_nothing_is_told() {
        play(-5, 10, t -> t < 0 ? 12 : 12 * Math.exp(-t / TAU));

        assertThat(fall.end(Absence.DID_NOT_FALL).absentBecause())
                .isEqualTo(Absence.TOO_LOW_TO_FALL);
    }

    @Test
    void a_stop_that_was_not_seen_has_no_fall() {
        assertThat(fall.end(Absence.DID_NOT_FALL).absentBecause()).isEqualTo(Absence.STOP_NOT_SEEN);
    }

    /**
     * At 20 Hz with 0.3 psi of noise; the booster stops at second 0, which is seen a moment later.
     */
    private void play(double from, double to, DoubleUnaryOperator psi) {
        for (int i = (int) Math.round(from * 20); i < to * 20; i++) {
            if (i == SEEN) {
                fall.open(STOP, before);
            }
            long at = STOP + i * 50_000L;
            double noisy = psi.applyAsDouble(i / 20.0) + 0.3 * noise.nextGaussian();
            before.add(at, noisy);
            fall.read(at, noisy);
        }
    }
}
