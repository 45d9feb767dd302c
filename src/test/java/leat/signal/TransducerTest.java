package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Bands of the loop current: NAMUR NE 43. Pressures are the straight line p = (I - 4) / 16 * 150
 * psi, worked out by hand.
 */
class TransducerTest {

    private static final TwoPoint MILLIAMPS_TO_PSI = new TwoPoint(4, 0, 20, 150);

    /** Delivers the loop current itself. */
    private static final Transducer LOOP = loop(TwoPoint.IDENTITY);

    /** 12 bits on 0 to 20 mA, full scale 4095 counts. */
    private static final Transducer TWELVE_BITS = loop(new TwoPoint(0, 0, 4095, 20));

    /** Delivers psi as a float. */
    private static final Transducer FLOAT =
            new Transducer(Optional.empty(), TwoPoint.IDENTITY, -15, 300);

    @ParameterizedTest
    @CsvSource({
        "3.8, -1.875, GOOD",
        "4, 0, GOOD",
        "8, 37.5, GOOD",
        "12, 75, GOOD",
        "16, 112.5, GOOD",
        "20, 150, GOOD",
        "20.44, 154.125, GOOD",
        "20.46, 154.3125, AT_TOP",
        "20.5, 154.6875, AT_TOP",
        "3.7, -2.8125, LOOP_BELOW_BAND",
        "3.601, -3.740625, LOOP_BELOW_BAND",
        "20.75, 157.03125, LOOP_ABOVE_BAND",
        "20.999, 159.365625, LOOP_ABOVE_BAND"
    })
    void a_loop_current_becomes_a_pressure_with_the_quality_of_its_band(
            double milliamps, double psi, Quality quality) {
        Reading reading = LOOP.read(Channel.INLET, 7, milliamps);

        assertThat(reading.value()).isCloseTo(psi, within(1e-9));
        assertThat(reading.quality()).isEqualTo(quality);
        assertThat(reading.channel()).isEqualTo(Channel.INLET);
        assertThat(reading.atMicros()).isEqualTo(7);
    }

    @ParameterizedTest
    @ValueSource(doubles = {3.6, 3.599, 3.0, 0.1, 0.0, -0.0, -1.0, -20.0})
    void a_broken_wire_is_never_zero_psi(double milliamps) {
        Reading reading = LOOP.read(Channel.BOOSTED, 0, milliamps);

        assertThat(reading.quality()).isEqualTo(Quality.LOOP_BROKEN);
        assertThat(reading.quality().isUsable()).isFalse();
    }

    @ParameterizedTest
    @ValueSource(doubles = {21.0, 21.001, 24.0, 1e300})
    void a_short_circuit_is_no_high_pressure(double milliamps) {
        Reading reading = LOOP.read(Channel.BOOSTED, 0, milliamps);

        assertThat(reading.quality()).isEqualTo(Quality.LOOP_SHORTED);
    }

    @Test
    void counts_of_a_12_bit_converter_become_a_pressure() {
        Reading middle = TWELVE_BITS.read(Channel.INLET, 0, 2048);
        Reading zero = TWELVE_BITS.read(Channel.INLET, 0, 819);

        assertThat(new TwoPoint(0, 0, 4095, 20).at(2048)).isCloseTo(10.002442, within(5e-7));
        assertThat(middle.value()).isCloseTo(56.272894, within(5e-7));
        assertThat(zero.value()).isCloseTo(0, within(1e-12));
        assertThat(zero.quality()).isEqualTo(Quality.GOOD);
    }

    @Test
    void every_count_of_a_12_bit_converter_is_classed_by_its_current() {
        for (int count = 0; count <= 4095; count++) {
            Quality quality = TWELVE_BITS.read(Channel.INLET, 0, count).quality();

            // 3.6, 3.8, 20.5 and 21.0 mA are 737.1, 778.05, 4197.4 and 4299.75 counts
            Quality expected =
                    count <= 737
                            ? Quality.LOOP_BROKEN
                            : count <= 778 ? Quality.LOOP_BELOW_BAND : Quality.GOOD;
            assertThat(quality).as("count %d", count).isEqualTo(expected);
        }
    }

    @ParameterizedTest
    @ValueSource(
            doubles = {
                Double.NaN,
                Double.POSITIVE_INFINITY,
                Double.NEGATIVE_INFINITY,
                Double.MIN_VALUE,
                2.372e-41, // 40.0 as float32 in the wrong word order
                2.390e-41, // 80.0
                6.879e-41, // -1.5
                -9.9e-31
            })
    void what_is_no_number_or_tinier_than_any_pressure_cannot_be_decoded(double raw) {
        assertThat(FLOAT.read(Channel.INLET, 0, raw).quality()).isEqualTo(Quality.UNDECODABLE);
        assertThat(LOOP.read(Channel.INLET, 0, raw).quality()).isEqualTo(Quality.UNDECODABLE);
    }

    @ParameterizedTest
    @ValueSource(doubles = {-1.883e25, -1.076e8, -15.001, 300.001, Double.MAX_VALUE})
    void a_pressure_that_the_line_cannot_have_is_out_of_range(double raw) {
        assertThat(FLOAT.read(Channel.INLET, 0, raw).quality()).isEqualTo(Quality.OUT_OF_RANGE);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.0, -0.3, -15, 300, 1e-9, 39.9})
    void a_float_in_psi_is_taken_as_it_is_and_a_little_below_zero_is_legal(double raw) {
        Reading reading = FLOAT.read(Channel.INLET, 0, raw);

        assertThat(reading).isEqualTo(Reading.good(Channel.INLET, 0, raw));
    }

    @Test
    void a_transducer_that_runs_downwards_is_legal() {
        Transducer falling =
                new Transducer(Optional.empty(), new TwoPoint(0, 200, 1000, 0), -1, 201);

        assertThat(falling.read(Channel.INLET, 0, 250).value()).isEqualTo(150);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void any_number_at_all_becomes_a_reading_that_keeps_its_promises(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 20_000; i++) {
            double raw = Double.longBitsToDouble(random.nextLong());

            Reading loop = LOOP.read(Channel.INLET, i, raw);
            Reading plain = FLOAT.read(Channel.INLET, i, raw);

            String what = "seed " + seed + ", raw " + raw;
            assertThat(loop.quality().isUsable()).as(what).isEqualTo(raw > 3.6 && raw < 21.0);
            assertThat(plain.value()).as(what).isBetween(-15.0, 300.0);
        }
    }

    @Test
    void a_range_that_does_not_run_upwards_is_refused() {
        assertThatThrownBy(() -> new Transducer(Optional.empty(), TwoPoint.IDENTITY, 5, 5))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Transducer(Optional.empty(), TwoPoint.IDENTITY, Double.NaN, 5))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void scaling_points_that_make_no_line_are_refused() {
        assertThatThrownBy(() -> new TwoPoint(4, 0, 4, 150))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new TwoPoint(4, 0, 20, 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new TwoPoint(4, 0, Double.NaN, 150))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private static Transducer loop(TwoPoint rawToMilliamps) {
        return new Transducer(Optional.of(rawToMilliamps), MILLIAMPS_TO_PSI, -10, 200);
    }
}
