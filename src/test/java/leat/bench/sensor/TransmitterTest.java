package leat.bench.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TransmitterTest {

    private static Transmitter transmitter(long seed, double psi, double noisePsi) {
        return new Transmitter(new Transducer(Loop.USUAL, 0.04, noisePsi), seed, psi);
    }

    @ParameterizedTest
    @CsvSource({"0, 4.0", "100, 12.0", "200, 20.0", "50, 8.0"})
    void pressure_becomes_loop_current_within_half_a_count(double psi, double current) {
        int counts = transmitter(1, psi, 0).convert();

        assertThat(counts * 20.5 / 4095).isCloseTo(current, within(0.5 * 20.5 / 4095));
        assertThat(Loop.USUAL.psi(counts)).isCloseTo(psi, within(0.032));
    }

    /** NAMUR NE 43: a sound transmitter saturates at 3.8 and 20.5 mA. */
    @ParameterizedTest
    @CsvSource({"-14.7, 3.8", "500, 20.5"})
    void pressure_out_of_range_saturates_inside_the_band_of_a_sound_signal(
            double psi, double current) {
        double read = transmitter(1, psi, 0.3).convert() * 20.5 / 4095;

        assertThat(read).isBetween(3.8, 20.5).isCloseTo(current, within(20.5 / 4095));
    }

    @Test
    void broken_loop_reads_no_current_until_it_is_mended() {
        Transmitter transmitter = transmitter(1, 100, 0.3);
        transmitter.strike(SensorFault.BROKEN_LOOP, 1);
        int broken = transmitter.convert();
        transmitter.repair(SensorFault.BROKEN_LOOP);

        int mended = transmitter.convert();

        assertThat(broken).isZero();
        assertThat(Loop.USUAL.psi(mended)).isCloseTo(100, within(2.0));
    }

    @Test
    void noise_has_the_deviation_it_is_given_and_no_offset() {
        Transmitter transmitter = transmitter(7, 100, 0.3);

        double[] read =
                IntStream.range(0, 20_000)
                        .mapToDouble(i -> Loop.USUAL.psi(transmitter.convert()))
                        .toArray();

        double mean = IntStream.range(0, read.length).mapToDouble(i -> read[i]).average().orElse(0);
        double variance =
                IntStream.range(0, read.length)
                        .mapToDouble(i -> (read[i] - mean) * (read[i] - mean))
                        .average()
                        .orElse(0);
        assertThat(mean).isCloseTo(100, within(0.04));
        assertThat(Math.sqrt(variance)).isCloseTo(0.3, within(0.02));
    }

    @Test
    void step_is_seen_with_the_lag_of_the_transducer() {
        Transmitter transmitter = transmitter(1, 0, 0);

        transmitter.advance(100, 0.04);

        assertThat(Loop.USUAL.psi(transmitter.convert()))
                .isCloseTo(100 * (1 - Math.exp(-1)), within(0.05));
    }
}
