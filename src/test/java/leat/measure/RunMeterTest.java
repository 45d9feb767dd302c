package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import leat.measure.absence.Absence;
import leat.signal.Channel;
import leat.signal.Gauges.Switch;
import leat.signal.Quality;
import leat.signal.Reading;
import org.junit.jupiter.api.Test;

class RunMeterTest {

    private static final double SINE_SD = 1 / Math.sqrt(2);

    @Test
    void a_stroke_of_3_psi_ripples_by_its_standard_deviation() {
        SteadySpell spell = play(1, 60, 0, t -> 40, t -> 100 + 3 * Math.sin(2 * Math.PI * 0.9 * t));

        assertThat(spell.ripplePsi().get()).isCloseTo(3 * SINE_SD, within(0.35));
        assertThat(spell.wanderPsi().get()).isLessThan(0.75);
    }

    @Test
    void a_slow_wave_wanders_and_does_not_ripple() {
        SteadySpell spell = play(1, 120, 0, t -> 40, t -> 100 + 3 * Math.sin(2 * Math.PI * t / 30));

        assertThat(spell.wanderPsi().get()).isCloseTo(3 * SINE_SD, within(0.1));
        assertThat(spell.ripplePsi().get()).isLessThan(0.5);
    }

    /**
     * The doubt of a standard deviation s of n looks is t s / sqrt(2 n) (ISO/IEC Guide 98-3, E.4.3,
     * from memory, with n for n - 1); t(95 %, 59) = 2.001 (any table of Student's t).
     */
    @Test
    void doubt_of_the_ripple_is_that_of_one_look_a_second() {
        SteadySpell spell = play(1, 60, 0, t -> 40, t -> 100 + 3 * Math.sin(2 * Math.PI * 0.9 * t));

        double relative = spell.ripplePsi().uncertainty().orElseThrow() / spell.ripplePsi().get();
        assertThat(relative).isCloseTo(2.001 / Math.sqrt(2 * 60), within(0.01));
    }

    @Test
    void a_short_spell_has_means_and_no_ripple() {
        SteadySpell spell = play(1, 8, 0.2, t -> 40, t -> 100);

        assertThat(spell.boostedPsi().get()).isCloseTo(100, within(0.2));
        assertThat(spell.ripplePsi().absentBecause()).isEqualTo(Absence.STEADY_TOO_SHORT);
    }

    @Test
    void once_a_second_is_too_slow_to_see_strokes() {
        RunMeter meter = new RunMeter(10, true);
        meter.open(-13_000_000);
        for (int second = 0; second < 60; second++) {
            meter.read(Reading.good(Channel.INLET, second * 1_000_000L, 40));
            meter.read(Reading.good(Channel.BOOSTED, second * 1_000_000L, 100));
            meter.tick(Switch.UNKNOWN);
        }

        assertThat(meter.pause().orElseThrow().ripplePsi().absentBecause())
                .isEqualTo(Absence.TOO_SLOW_TO_SEE_STROKES);
    }

    /** Strokes out of step with the sampling, white noise: the means lie within their doubt. */
    @Test
    void about_95_percent_of_true_means_and_ratios_lie_within_their_uncertainty() {
        int cases = 1_000;
        int boosted = 0;
        int ratio = 0;

        for (int seed = 0; seed < cases; seed++) {
            double strokes = 0.5 + seed / 1_000.0;
            SteadySpell spell =
                    play(
                            seed,
                            30,
                            0.8,
                            t -> 40,
                            t -> 100 + 2 * Math.sin(2 * Math.PI * strokes * t));
            boosted += holds(spell.boostedPsi(), 100) ? 1 : 0;
            ratio += holds(spell.ratio(), 2.5) ? 1 : 0;
        }

        assertThat(boosted / (double) cases).isBetween(0.93, 1.0);
        assertThat(ratio / (double) cases).isBetween(0.93, 1.0);
    }

    /**
     * Of a wave of 12 s a stretch of 10 s holds all but 4 % of the variance: plain trigonometry.
     * Drift over minutes is no wave.
     */
    @Test
    void waves_of_some_seconds_are_the_wander_of_a_run_and_drift_is_not() {
        double wave = 3 * SINE_SD;

        assertThat(wander(t -> 100 + 3 * Math.sin(2 * Math.PI * t / 12)))
                .isCloseTo(wave, within(0.05 * wave));
        assertThat(wander(t -> 100 + t / 60)).isLessThan(0.06);
    }

    /**
     * What follows the inlet is none of its own, whatever the slope; what goes against it, and what
     * the inlet knows nothing of, stays (plain algebra, waves of whole periods in ten seconds).
     */
    @Test
    void unrest_of_a_level_is_what_it_does_not_do_along_with_the_inlet() {
        DoubleUnaryOperator wave = t -> Math.sin(2 * Math.PI * t / 5);
        DoubleUnaryOperator quarter = t -> Math.cos(2 * Math.PI * t / 5);
        double ofWave = unrest(t -> 0, wave);

        assertThat(ofWave).isBetween(0.9 * 3 * SINE_SD, 1.1 * 3 * SINE_SD);
        assertThat(unrest(wave, wave)).isLessThan(0.001);
        assertThat(unrest(t -> -wave.applyAsDouble(t), wave)).isCloseTo(ofWave, within(0.001));
        assertThat(unrest(quarter, wave)).isCloseTo(ofWave, within(0.05));
        assertThat(unrest(quarter, t -> wave.applyAsDouble(t) + quarter.applyAsDouble(t)))
                .isCloseTo(ofWave, within(0.05));
    }

    @Test
    void a_machine_without_an_inlet_gauge_has_a_wander_and_no_unrest() {
        RunMeter meter = new RunMeter(10, false);
        meter.open(0);
        feed(meter, 1, 60, 0.1, t -> 0, t -> 100 + 3 * Math.sin(2 * Math.PI * t / 5));
        Run run = meter.run(0, 60_000_000, true);

        assertThat(run.figure(Measurand.WANDER).isPresent()).isTrue();
        assertThat(run.figure(Measurand.UNREST).absentBecause()).isEqualTo(Absence.NO_INLET_GAUGE);
    }

    @Test
    void a_level_that_differs_after_a_gap_did_not_wander() {
        RunMeter meter = new RunMeter(10, true);
        meter.open(0);
        feed(meter, 1, 65, 0, t -> 40, t -> 100);
        meter.pause();
        feed(meter, 1, 65, 0, t -> 40, t -> 90);

        assertThat(meter.run(0, 130_000_000, true).figure(Measurand.WANDER).get()).isLessThan(0.01);
    }

    /**
     * Waves of 6 s: in step the correlation is 1, against each other -1, a quarter wave apart 0;
     * half of the variance in step and half on one side alone gives 1 / sqrt(2) (plain algebra).
     */
    @Test
    void inlet_and_boosted_sway_together_or_against_each_other() {
        DoubleUnaryOperator wave = t -> Math.sin(2 * Math.PI * t / 6);
        DoubleUnaryOperator quarter = t -> Math.cos(2 * Math.PI * t / 6);

        assertThat(sway(wave, wave)).isCloseTo(1, within(0.001));
        assertThat(sway(wave, t -> -wave.applyAsDouble(t))).isCloseTo(-1, within(0.001));
        assertThat(sway(wave, quarter)).isCloseTo(0, within(0.05));
        assertThat(sway(t -> wave.applyAsDouble(t) + quarter.applyAsDouble(t), wave))
                .isCloseTo(Math.sqrt(0.5), within(0.05));
    }

    @Test
    void readings_that_break_off_and_come_back_are_counted_in_each_run() {
        RunMeter meter = new RunMeter(10, true);
        for (int breaks = 2; breaks >= 0; breaks--) {
            meter.open(0);
            for (int i = 0; i < breaks; i++) {
                came(meter, 4 * i, Quality.LOOP_BROKEN);
                came(meter, 4 * i + 1, Quality.LOOP_BROKEN);
                came(meter, 4 * i + 3, Quality.GOOD);
            }
            came(meter, 20, Quality.LOOP_BROKEN); // alone
            came(meter, 29, Quality.GOOD);
            came(meter, 30, Quality.LOOP_BROKEN); // for a moment
            came(meter, 31, Quality.UNDECODABLE);
            came(meter, 32, Quality.GOOD);
            came(meter, 40, Quality.LOOP_BROKEN); // and stays away
            came(meter, 50, Quality.LOOP_BROKEN);

            Run run = meter.run(0, 1, true);
            assertThat(run.figure(Measurand.BOOSTED_BREAKS).orElse(0)).isEqualTo(breaks);
            assertThat(run.figure(Measurand.INLET_BREAKS).isPresent()).isFalse();
        }
    }

    private static void came(RunMeter meter, int tenths, Quality quality) {
        long at = tenths * 100_000L;
        meter.came(
                quality == Quality.GOOD
                        ? Reading.good(Channel.BOOSTED, at, 100)
                        : Reading.bad(Channel.BOOSTED, at, quality));
    }

    private static double sway(DoubleUnaryOperator inlet, DoubleUnaryOperator boosted) {
        RunMeter meter = new RunMeter(10, true);
        meter.open(0);
        feed(
                meter,
                1,
                240,
                0,
                t -> 40 + inlet.applyAsDouble(t),
                t -> 100 + 3 * boosted.applyAsDouble(t));
        return meter.run(0, 240_000_000, true).figure(Measurand.SWAY).get();
    }

    private static double unrest(DoubleUnaryOperator inlet, DoubleUnaryOperator boosted) {
        RunMeter meter = new RunMeter(10, true);
        meter.open(0);
        feed(
                meter,
                1,
                240,
                0,
                t -> 40 + inlet.applyAsDouble(t),
                t -> 100 + 3 * boosted.applyAsDouble(t));
        return meter.run(0, 240_000_000, true).figure(Measurand.UNREST).get();
    }

    private static double wander(DoubleUnaryOperator boosted) {
        RunMeter meter = new RunMeter(10, true);
        meter.open(0);
        feed(meter, 1, 240, 0, t -> 40, boosted);
        return meter.run(0, 240_000_000, true).figure(Measurand.WANDER).get();
    }

    private static boolean holds(Figure figure, double truth) {
        return Math.abs(figure.get() - truth) <= figure.uncertainty().getAsDouble();
    }

    /** At 20 Hz. */
    private static SteadySpell play(
            long seed,
            int seconds,
            double noisePsi,
            DoubleUnaryOperator inlet,
            DoubleUnaryOperator boosted) {
        RunMeter meter = new RunMeter(10, true);
        meter.open(-13_000_000);
        feed(meter, seed, seconds, noisePsi, inlet, boosted);
        return meter.pause().orElseThrow();
    }

    private static void feed(
            RunMeter meter,
            long seed,
            int seconds,
            double noisePsi,
            DoubleUnaryOperator inlet,
            DoubleUnaryOperator boosted) {
        Random random = new Random(seed);
        for (int i = 0; i < seconds * 20; i++) {
            double t = i / 20.0;
            double inletPsi = inlet.applyAsDouble(t) + noisePsi * random.nextGaussian();
            double boostedPsi = boosted.applyAsDouble(t) + noisePsi * random.nextGaussian();
            meter.read(Reading.good(Channel.INLET, i * 50_000L, inletPsi));
            meter.read(Reading.good(Channel.BOOSTED, i * 50_000L, boostedPsi));
            if (i % 20 == 19) {
                meter.tick(Switch.UNKNOWN);
            }
        }
    }
}
