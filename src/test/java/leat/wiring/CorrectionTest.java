package leat.wiring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.Random;
import leat.Gear;
import leat.signal.Channel;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** The line from loop current or number to psi. */
class CorrectionTest {

    private static final TwoPoint TO_200 = new TwoPoint(4, 0, 20, 200);
    private static final Offset<Double> CLOSE = within(1e-9);

    @Test
    void a_vented_reading_becomes_zero_and_the_gain_stays() {
        TwoPoint line = Correction.zeroed(TO_200, 1.25);

        assertThat(line).isEqualTo(new TwoPoint(4.1, 0, 20.1, 200));
    }

    @Test
    void what_the_gauge_shows_is_read_then_and_zero_stays_zero() {
        TwoPoint line = Correction.against(TO_200, 80, 100);

        assertThat(line.at(TO_200.inputFor(80))).isCloseTo(100, CLOSE);
        assertThat(line.at(4)).isCloseTo(0, CLOSE);
        assertThat(line.y1()).isEqualTo(0);
        assertThat(line.y2()).isEqualTo(200);
    }

    @Test
    void any_line_that_is_set_at_zero_and_then_by_a_gauge_reads_both_right() {
        Random chance = new Random(Gear.seed());
        for (int i = 0; i < 500; i++) {
            TwoPoint line =
                    new TwoPoint(
                            100 * chance.nextDouble(),
                            -15 + 10 * chance.nextDouble(),
                            200 + 1e4 * chance.nextDouble(),
                            50 + 300 * chance.nextDouble());
            double vented = line.inputFor(4 * chance.nextGaussian());
            double pressed = line.inputFor(60 + 60 * chance.nextDouble());

            TwoPoint zeroed = Correction.zeroed(line, line.at(vented));
            TwoPoint both = Correction.against(zeroed, zeroed.at(pressed), 100);

            assertThat(zeroed.at(vented)).isCloseTo(0, within(1e-6));
            assertThat(both.at(vented)).isCloseTo(0, within(1e-6));
            assertThat(both.at(pressed)).isCloseTo(100, within(1e-6));
        }
    }

    @Test
    void the_span_is_that_of_the_loop_or_what_is_believed_and_never_that_of_a_wider_gauge() {
        Optional<TwoPoint> loop = Optional.of(new TwoPoint(0, 0, 1, 1));

        assertThat(Correction.spanPsi(new Transducer(loop, new TwoPoint(4, 0, 12, 75), -15, 165)))
                .isCloseTo(150, CLOSE);
        assertThat(
                        Correction.spanPsi(
                                new Transducer(Optional.empty(), TwoPoint.IDENTITY, -15, 110)))
                .isEqualTo(110);
        assertThat(
                        Correction.spanPsi(
                                new Transducer(Optional.empty(), TwoPoint.IDENTITY, -15, 500)))
                .isEqualTo(200);
    }

    @Test
    void the_journal_tells_years_later_what_was_corrected() {
        CorrectionNote zero = new CorrectionNote(Channel.BOOSTED, -1.25, 0);
        CorrectionNote gain = new CorrectionNote(Channel.INLET, 39.5, 41);

        assertThat(CorrectionNote.read(zero.text("scale: [ a ]", "scale: [ b ]"))).contains(zero);
        assertThat(CorrectionNote.read(gain.text("x", "y"))).contains(gain);
        assertThat(zero.isZero()).isTrue();
        assertThat(gain.offPsi()).isEqualTo(-1.5);
        assertThat(CorrectionNote.read("new gauge, boosted read 3 psi vented")).isEmpty();
    }
}
