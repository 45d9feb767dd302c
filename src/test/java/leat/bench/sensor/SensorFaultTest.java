package leat.bench.sensor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SensorFaultTest {

    private static final Loop TO_22_MA = new Loop(200, 12, 22);

    private static Transmitter quiet(Loop loop, double psi) {
        return new Transmitter(new Transducer(loop, 0.04, 0), 1, psi);
    }

    /** NAMUR NE 43: from 21 mA the signal means a failure. */
    @Test
    void a_shorted_loop_has_more_current_than_any_pressure_gives() {
        Transmitter transmitter = quiet(TO_22_MA, 500);
        double saturated = TO_22_MA.milliamps(transmitter.convert());
        transmitter.strike(SensorFault.SHORTED_LOOP, 1);

        double shorted = TO_22_MA.milliamps(transmitter.convert());

        assertThat(saturated).isLessThanOrEqualTo(20.5);
        assertThat(shorted).isGreaterThanOrEqualTo(21);
    }

    @Test
    void a_converter_that_ends_at_20_5_mA_cannot_tell_a_short_from_a_pressure_too_high() {
        Transmitter transmitter = quiet(Loop.USUAL, 500);
        int saturated = transmitter.convert();
        transmitter.strike(SensorFault.SHORTED_LOOP, 1);

        int shorted = transmitter.convert();

        assertThat(shorted).isEqualTo(saturated).isEqualTo(4095);
    }

    @ParameterizedTest
    @CsvSource({"3, 0, 3", "3, 100, 103", "-6, 40, 34"})
    void an_offset_is_the_same_at_every_pressure(double offset, double psi, double read) {
        Transmitter transmitter = quiet(Loop.USUAL, psi);
        transmitter.strike(SensorFault.OFFSET, offset);

        double said = Loop.USUAL.psi(transmitter.convert());

        assertThat(said).isCloseTo(read, within(0.032));
    }

    @ParameterizedTest
    @CsvSource({"2, 0, 0", "2, 100, 102", "-10, 40, 36"})
    void a_span_error_grows_with_the_pressure(double percent, double psi, double read) {
        Transmitter transmitter = quiet(Loop.USUAL, psi);
        transmitter.strike(SensorFault.SPAN, percent);

        double said = Loop.USUAL.psi(transmitter.convert());

        assertThat(said).isCloseTo(read, within(0.032));
    }

    @Test
    void a_stuck_one_repeats_its_last_counts_to_the_bit_until_it_is_repaired() {
        Transmitter transmitter = new Transmitter(Transducer.USUAL, 7, 100);
        int last = transmitter.convert();
        transmitter.strike(SensorFault.STUCK, 1);
        transmitter.advance(0, 10);

        int[] stuck = IntStream.range(0, 100).map(i -> transmitter.convert()).toArray();
        transmitter.repair(SensorFault.STUCK);

        assertThat(stuck).containsOnly(last);
        assertThat(Loop.USUAL.psi(transmitter.convert())).isCloseTo(0, within(2.0));
    }

    @Test
    void an_open_wire_hides_every_other_fault() {
        Transmitter transmitter = quiet(Loop.USUAL, 100);
        transmitter.strike(SensorFault.STUCK, 1);
        transmitter.strike(SensorFault.OFFSET, 5);
        transmitter.strike(SensorFault.BROKEN_LOOP, 1);

        int counts = transmitter.convert();

        assertThat(counts).isZero();
    }

    @Test
    void a_repair_gives_the_same_counts_as_if_nothing_had_been() {
        Transmitter sound = new Transmitter(Transducer.USUAL, 3, 50);
        Transmitter mended = new Transmitter(Transducer.USUAL, 3, 50);
        mended.strike(SensorFault.BROKEN_LOOP, 1);
        IntStream.range(0, 20).forEach(i -> mended.convert());
        IntStream.range(0, 20).forEach(i -> sound.convert());

        mended.repair(SensorFault.BROKEN_LOOP);

        assertThat(mended.convert()).isEqualTo(sound.convert());
    }

    /** Least step of a converter: full scale over highest count, of 16 mA over the range. */
    @ParameterizedTest
    @CsvSource({"12, 0.06258", "16, 0.003910"})
    void bits_decide_how_fine_it_reads(int bits, double psiPerCount) {
        Loop loop = new Loop(200, bits, 20.5);

        double step = loop.psi(1001) - loop.psi(1000);

        assertThat(step).isCloseTo(psiPerCount, within(1e-5));
    }

    @Test
    void another_range_reads_the_same_pressure() {
        Loop loop = new Loop(100, 16, 20.5);

        int counts = quiet(loop, 42).convert();

        assertThat(loop.psi(counts)).isCloseTo(42, within(0.001));
        assertThat(loop.milliamps(counts)).isCloseTo(4 + 0.42 * 16, within(0.001));
    }

    @Test
    void what_no_converter_is_is_refused() {
        assertThatIllegalArgumentException().isThrownBy(() -> new Loop(200, 14, 20.5));
        assertThatIllegalArgumentException().isThrownBy(() -> new Loop(200, 12, 20));
        assertThatIllegalArgumentException().isThrownBy(() -> new Loop(0, 12, 20.5));
    }
}
