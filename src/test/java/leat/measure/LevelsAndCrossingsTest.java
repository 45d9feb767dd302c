package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import leat.measure.absence.Absence;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Climbs of known formula: first-order values are analytic (10 to 90 % is ln 9 time constants), of
 * second order those of {@code references/second_order.csv}. Tolerances are the stated
 * uncertainties.
 */
class LevelsAndCrossingsTest {

    @ParameterizedTest
    @CsvFileSource(resources = "/references/second_order.csv", numLinesToSkip = 1)
    void second_order_rise_meets_the_table_without_noise(
            double zeta, double overshoot, double tpWn, double riseWn, double settleWn) {
        MeasuredClimb climb =
                MeasuredClimb.of(
                        new AnalyticClimb(3)
                                .noisy(0)
                                .rounded(0)
                                .sampled(100)
                                .secondOrder(zeta, 3)
                                .lasting(30));

        Figure rise = climb.crossings().durationSeconds();
        Figure over = climb.aberrations().overshootPercent();
        assertThat(rise.get()).isCloseTo(riseWn / 3, within(rise.doubt()));
        assertThat(rise.doubt()).isLessThan(0.01);
        assertThat(over.get()).isCloseTo(overshoot, within(over.doubt()));
        assertThat(over.doubt()).isLessThan(0.8);
    }

    @ParameterizedTest
    @ValueSource(doubles = {10, 20, 50, 100})
    void first_order_settles_in_ln_25_time_constants_from_the_50_percent_instant(double hertz) {
        MeasuredClimb climb =
                MeasuredClimb.of(
                        new AnalyticClimb(5).noisy(0).rounded(0).sampled(hertz).firstOrder(0.8));

        Figure settling = climb.settling(1);

        assertThat(settling.get()).isCloseTo(2.575101, within(settling.doubt()));
        assertThat(settling.doubt()).isLessThan(0.05);
    }

    @Test
    void few_samples_inside_the_climb_ask_for_a_fit() {
        MeasuredClimb slowly = MeasuredClimb.of(new AnalyticClimb(1).sampled(2).firstOrder(0.8));
        MeasuredClimb well = MeasuredClimb.of(new AnalyticClimb(1).sampled(5).firstOrder(0.8));

        assertThat(slowly.crossings().fitInstead()).isTrue();
        assertThat(well.crossings().fitInstead()).isFalse();
    }

    @Test
    void a_rise_within_three_samples_has_no_duration() {
        MeasuredClimb climb = MeasuredClimb.of(new AnalyticClimb(1).sampled(5).firstOrder(0.1));

        assertThat(climb.crossings().durationSeconds().absentBecause())
                .isEqualTo(Absence.TOO_SLOW_FOR_RISE);
    }

    @Test
    void noise_wider_than_the_band_leaves_no_settling() {
        MeasuredClimb climb =
                MeasuredClimb.of(
                        new AnalyticClimb(1).noisy(2).sampled(10).levels(0, 50).firstOrder(0.5));

        assertThat(climb.settling(1).absentBecause()).isEqualTo(Absence.NOISE_WIDER_THAN_BAND);
    }

    @Test
    void a_pressure_that_leaves_too_little_time_at_its_level_has_no_settling() {
        MeasuredClimb climb = MeasuredClimb.of(new AnalyticClimb(1).firstOrder(0.5).lasting(8));

        assertThat(climb.settling(60).absentBecause()).isEqualTo(Absence.LEVEL_TOO_SHORT);
    }

    @Test
    void a_pressure_that_is_not_reached_has_no_time() {
        MeasuredClimb climb = MeasuredClimb.of(new AnalyticClimb(1).levels(0, 70));

        assertThat(climb.after10(75).absentBecause()).isEqualTo(Absence.NOT_REACHED);
    }

    @Test
    void a_climb_from_above_the_pressure_has_no_time() {
        MeasuredClimb climb = MeasuredClimb.of(new AnalyticClimb(1).levels(80, 40));

        assertThat(climb.after10(75).absentBecause()).isEqualTo(Absence.BEGAN_ABOVE);
    }

    @Test
    void without_strokes_there_is_no_drop() {
        MeasuredClimb climb = MeasuredClimb.of(new AnalyticClimb(1));

        assertThat(climb.levels().dropPsi().absentBecause()).isEqualTo(Absence.NO_STROKES_SEEN);
        assertThat(climb.levels().unloaded().absentBecause()).isEqualTo(Absence.NO_STROKES_SEEN);
    }

    @Test
    void a_worn_pump_shows_its_level_before_the_strokes_and_its_drop_under_them() {
        MeasuredClimb climb =
                MeasuredClimb.of(
                        new AnalyticClimb(2)
                                .levels(0, 100)
                                .firstOrder(0.4)
                                .strokes(1, 3, 5, 15)
                                .lasting(13));

        assertThat(climb.levels().unloaded().get()).isCloseTo(100, within(0.5));
        assertThat(climb.levels().loaded().get()).isCloseTo(85, within(0.7));
        assertThat(climb.levels().dropPsi().get()).isCloseTo(15, within(0.9));
    }

    @Test
    void a_record_that_ends_soon_after_the_climb_has_a_level_with_the_doubt_of_its_creep() {
        MeasuredClimb soon = MeasuredClimb.of(new AnalyticClimb(2).firstOrder(0.5).lasting(2));
        MeasuredClimb late = MeasuredClimb.of(new AnalyticClimb(2).firstOrder(0.5).lasting(9));

        assertThat(soon.levels().last().get())
                .isCloseTo(soon.truth().top(), within(soon.levels().last().doubt()));
        assertThat(soon.levels().last().doubt()).isGreaterThan(5 * late.levels().last().doubt());
        assertThat(soon.levels().loaded().absentBecause()).isEqualTo(Absence.NO_STROKES_SEEN);
    }

    @Test
    void of_a_few_readings_the_level_is_their_median_and_a_drift_among_them_is_doubt() {
        Noise noise = new Noise(0.1, 0, 0.2, 8);

        Figure still = Level.ofShort(new double[] {99.9, 100, 100, 100.1}, noise);
        Figure moving = Level.ofShort(new double[] {96, 98, 102, 104}, noise);

        assertThat(still.get()).isEqualTo(moving.get()).isEqualTo(100);
        assertThat(still.doubt()).isLessThan(0.2);
        assertThat(moving.doubt()).isGreaterThan(5);
    }

    @Test
    void a_pressure_that_still_creeps_has_the_level_that_it_had_come_to_before_the_strokes() {
        AnalyticClimb creeping =
                new AnalyticClimb(2).sampled(50).firstOrder(2).strokes(1, 3, 8, 5).lasting(16);

        Figure before = MeasuredClimb.of(creeping).levels().unloaded();

        double reached = creeping.truth(creeping.start() + 7.75);
        assertThat(reached).isLessThan(98.5 + creeping.base());
        assertThat(before.get()).isCloseTo(reached, within(before.doubt()));
        assertThat(before.doubt()).isLessThan(0.6);
    }

    @Test
    void strokes_that_begin_while_the_pressure_climbs_leave_no_level_before_them() {
        AnalyticClimb climbing =
                new AnalyticClimb(2).sampled(20).firstOrder(2).strokes(1, 3, 4, 5).lasting(16);

        StateLevels levels = MeasuredClimb.of(climbing).levels();

        assertThat(levels.unloaded().absentBecause()).isEqualTo(Absence.STROKES_IN_CLIMB);
        assertThat(levels.loaded().get())
                .isCloseTo(climbing.top() - 5, within(levels.loaded().doubt()));
    }

    @Test
    void strokes_that_have_just_begun_leave_no_level_under_them() {
        AnalyticClimb begun =
                new AnalyticClimb(2).sampled(20).firstOrder(0.5).strokes(1, 3, 6, 8).lasting(8);

        StateLevels levels = MeasuredClimb.of(begun).levels();

        assertThat(levels.loaded().absentBecause()).isEqualTo(Absence.STROKES_JUST_BEGUN);
        assertThat(levels.unloaded().get())
                .isCloseTo(begun.top(), within(levels.unloaded().doubt()));
        assertThat(levels.last().get()).isCloseTo(begun.top(), within(levels.last().doubt()));
    }

    @Test
    void more_noise_makes_every_number_less_certain() {
        MeasuredClimb quiet = MeasuredClimb.of(new AnalyticClimb(4).noisy(0.1));
        MeasuredClimb loud = MeasuredClimb.of(new AnalyticClimb(4).noisy(0.8));

        assertThat(loud.levels().base().doubt()).isGreaterThan(3 * quiet.levels().base().doubt());
        assertThat(loud.crossings().durationSeconds().doubt())
                .isGreaterThan(3 * quiet.crossings().durationSeconds().doubt());
    }

    @Test
    void more_samples_make_every_number_more_certain() {
        MeasuredClimb few = MeasuredClimb.of(new AnalyticClimb(4).sampled(10));
        MeasuredClimb many = MeasuredClimb.of(new AnalyticClimb(4).sampled(100));

        assertThat(many.levels().base().doubt()).isLessThan(few.levels().base().doubt() / 2);
        assertThat(many.crossings().durationSeconds().doubt())
                .isLessThan(few.crossings().durationSeconds().doubt() / 2);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void one_wild_reading_moves_no_level(long seed) {
        AnalyticClimb climb = new AnalyticClimb(seed);
        Stretch curve = climb.stretch();
        Stretch wild = withOneWild(curve, 40 + new Random(seed).nextInt(20));
        Noise noise = Noise.of(wild).orElseThrow();

        StateLevels levels = StateLevels.of(wild, noise);

        assertThat(levels.base().get()).isCloseTo(2, within(0.2));
        assertThat(levels.last().get()).isCloseTo(100, within(0.2));
    }

    private static Stretch withOneWild(Stretch curve, int at) {
        Curve spoilt = new Curve();
        for (int i = 0; i < curve.size(); i++) {
            spoilt.add(Math.round(curve.second(i) * 1e6), i == at ? 150 : curve.raw(i));
        }
        return Stretch.of(spoilt, Long.MIN_VALUE / 2, Long.MAX_VALUE / 2, 0);
    }
}
