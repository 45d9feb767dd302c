package leat.wiring;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.wiring.Steadiness.Objection;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Ten seconds of a gauge of 0 to 200 psi, twenty readings a second. */
class SteadinessTest {

    private static final double SPAN_PSI = 200;

    private static List<Reading> readings(IntToDoubleFunction psi) {
        return IntStream.range(0, 200)
                .mapToObj(i -> Reading.good(Channel.BOOSTED, i * 50_000L, psi.applyAsDouble(i)))
                .toList();
    }

    @Test
    void noise_is_taken_for_its_mean() {
        Random chance = new Random(1);
        Steadiness seen = Steadiness.of(readings(i -> 1.2 + 0.3 * chance.nextGaussian()));

        assertThat(seen.toZero(SPAN_PSI)).isEmpty();
        assertThat(seen.meanPsi()).isBetween(1.1, 1.3);
        assertThat(seen.count()).isEqualTo(200);
    }

    @Test
    void a_line_that_is_still_being_relieved_is_not() {
        assertThat(Steadiness.of(readings(i -> 3 - 0.007 * i)).toZero(SPAN_PSI))
                .contains(Objection.MOVES);
    }

    @Test
    void a_line_that_swings_is_not() {
        assertThat(Steadiness.of(readings(i -> 3 * (i % 2))).toZero(SPAN_PSI)).isEmpty();
        assertThat(Steadiness.of(readings(i -> 5 * (i % 2))).toZero(SPAN_PSI))
                .contains(Objection.MOVES);
    }

    @ParameterizedTest
    @CsvSource({"10, ", "10.1, FAR_FROM_ZERO", "-10.1, FAR_FROM_ZERO", "-9.9, "})
    void a_vented_transducer_reads_within_a_twentieth_of_its_span(double psi, Objection expected) {
        assertThat(Steadiness.of(readings(i -> psi)).toZero(SPAN_PSI).orElse(null))
                .isEqualTo(expected);
    }

    @ParameterizedTest
    @EnumSource(names = {"LOOP_BROKEN", "OUT_OF_RANGE", "DEVICE_REFUSED", "UNDECODABLE"})
    void one_bad_reading_is_too_many(Quality quality) {
        List<Reading> readings = new ArrayList<>(readings(i -> 0.5));
        readings.set(57, Reading.bad(Channel.BOOSTED, 57, quality));

        assertThat(Steadiness.of(readings).toZero(SPAN_PSI)).contains(Objection.UNFIT);
        assertThat(Steadiness.of(readings).unfit()).contains(quality);
    }

    @Test
    void a_zero_that_has_wandered_below_the_measuring_band_can_be_set() {
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            readings.add(new Reading(Channel.BOOSTED, i, -3, Quality.LOOP_BELOW_BAND));
        }

        assertThat(Steadiness.of(readings).toZero(SPAN_PSI)).isEmpty();
    }

    @Test
    void few_readings_and_none_tell_nothing() {
        assertThat(Steadiness.of(readings(i -> 0).subList(0, 9)).toZero(SPAN_PSI))
                .contains(Objection.TOO_FEW);
        assertThat(Steadiness.of(List.of()).toZero(SPAN_PSI)).contains(Objection.TOO_FEW);
        assertThat(
                        Steadiness.of(List.of(Reading.bad(Channel.INLET, 0, Quality.LOOP_BROKEN)))
                                .toZero(SPAN_PSI))
                .contains(Objection.UNFIT);
    }

    @ParameterizedTest
    @CsvSource({"98, 100, ", "39, 41, TOO_LOW", "79, 100, FAR_FROM_GAUGE", "81, 100, "})
    void a_gauge_sets_the_gain_only_well_above_zero_and_near_by(
            double reads, double gauge, Objection expected) {
        assertThat(Steadiness.of(readings(i -> reads)).toGauge(gauge, SPAN_PSI).orElse(null))
                .isEqualTo(expected);
    }
}
