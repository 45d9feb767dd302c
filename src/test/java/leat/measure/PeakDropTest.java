package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import leat.measure.absence.Absence;
import leat.signal.Gauge;
import org.junit.jupiter.api.Test;

/**
 * What is lost from the peak under strokes, for courses of which each is a formula. The start is at
 * 5 s, the record ends at 20 s, strokes are a second each.
 */
class PeakDropTest {

    private static final double START = 5;
    private static final double END = 20;
    private static final double STROKES = 8;

    /** A worn pump still creeps up when the strokes begin: it has no level to drop from. */
    @Test
    void is_seen_where_the_climb_still_creeps_when_the_strokes_begin() {
        Startup worn = measured(t -> t < STROKES ? creeping(t) : 74 + stroke(t));

        assertThat(worn.figure(Measurand.UNLOADED).isPresent()).isFalse();
        assertThat(worn.figure(Measurand.DROP).isPresent()).isFalse();
        assertThat(worn.figure(Measurand.PEAK_DROP).get())
                .isCloseTo(creeping(STROKES - 0.15) - 74, within(1.0));
    }

    @Test
    void is_the_drop_where_the_climb_came_to_a_level() {
        Startup sound = measured(t -> t < STROKES ? steady(t) : 96 + stroke(t));

        Figure drop = sound.figure(Measurand.DROP);
        Figure fromPeak = sound.figure(Measurand.PEAK_DROP);
        assertThat(fromPeak.get()).isCloseTo(4, within(fromPeak.doubt()));
        assertThat(fromPeak.get()).isCloseTo(drop.get(), within(drop.doubt() + fromPeak.doubt()));
    }

    @Test
    void is_not_told_where_nothing_is_drawn() {
        Figure fromPeak = measured(PeakDropTest::steady).figure(Measurand.PEAK_DROP);

        assertThat(fromPeak).isEqualTo(Figure.absent(Absence.NO_STROKES_SEEN));
    }

    /** Towards 100 psi with a time constant of 0.9 s: 96 psi as the strokes begin. */
    private static double creeping(double t) {
        return 100 * (1 - Math.exp(-Math.max(0, t - START) / 0.9));
    }

    private static double steady(double t) {
        return Math.min(100, 50 * Math.max(0, t - START));
    }

    private static double stroke(double t) {
        return 1.5 * Math.sin(2 * Math.PI * t);
    }

    private static Startup measured(DoubleUnaryOperator psi) {
        Random random = new Random(7);
        StartupMeter meter = new StartupMeter(new StartupSettings(5, 75, true));
        for (int i = 0; i < 20 * END; i++) {
            double t = i / 20.0;
            long at = Math.round(t * 1e6);
            meter.inletRead(at, 45 + 0.2 * random.nextGaussian());
            meter.boostedRead(at, psi.applyAsDouble(t) + 0.3 * random.nextGaussian());
            if (t == START) {
                meter.open(at, true, Gauge.NEVER);
            }
        }
        return meter.measure(Math.round(END * 1e6), Math.round(END * 1e6));
    }
}
