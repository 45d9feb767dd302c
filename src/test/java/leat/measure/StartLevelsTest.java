package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import leat.measure.absence.Absence;
import org.junit.jupiter.api.Test;

/** Which seconds the levels of a start are of, for courses of which each is a formula. */
class StartLevelsTest {

    private static final double STROKE_SECONDS = 3.1;

    @Test
    void a_level_under_slow_strokes_is_of_three_of_them_and_knows_how_they_differ() {
        Stretch sinking = read(12, t -> 90 - 0.4 * t + strokes(t));

        LastLevel level = LastLevel.of(sinking, noise(sinking), STROKE_SECONDS);

        assertThat(level.toSecond() - level.fromSecond())
                .isCloseTo(3 * STROKE_SECONDS, within(0.001));
        assertThat(level.psi().doubt()).isGreaterThan(0.4 * STROKE_SECONDS);
    }

    @Test
    void a_climb_in_which_something_drew_has_no_level_before_the_strokes() {
        Stretch drawn = read(25, t -> hesitating(t) + underStrokes(t));

        StateLevels levels = StateLevels.of(drawn, noise(drawn));

        assertThat(levels.unloaded()).isEqualTo(Figure.absent(Absence.STROKES_IN_CLIMB));
        assertThat(levels.loaded().get()).isCloseTo(96, within(levels.loaded().doubt() + 0.2));
    }

    @Test
    void the_same_climb_without_a_pause_has_one() {
        Stretch plain = read(25, t -> steady(t) + underStrokes(t));

        StateLevels levels = StateLevels.of(plain, noise(plain));

        assertThat(levels.unloaded().get()).isCloseTo(100, within(levels.unloaded().doubt()));
    }

    /** 20 psi/s from the fifth second on, up to 100 psi; it stands for 0.7 s on its way. */
    private static double hesitating(double t) {
        double moved = t < 8.5 ? t - 5 : Math.max(3.5, t - 5.7);
        return Math.min(100, Math.max(0, 20 * moved));
    }

    private static double steady(double t) {
        return Math.min(100, Math.max(0, 20 * (t - 5)));
    }

    /** From the fourteenth second on, of a second each, 4 psi below. */
    private static double underStrokes(double t) {
        return t < 14 ? 0 : -4 + 2 * Math.sin(2 * Math.PI * t);
    }

    private static double strokes(double t) {
        return 3 * Math.sin(2 * Math.PI * t / STROKE_SECONDS);
    }

    private static Noise noise(Stretch read) {
        return Noise.of(read).orElseThrow();
    }

    private static Stretch read(double seconds, DoubleUnaryOperator psi) {
        Random random = new Random(7);
        Curve curve = new Curve();
        for (int i = 0; i < 20 * seconds; i++) {
            double t = i / 20.0;
            curve.add(Math.round(t * 1e6), psi.applyAsDouble(t) + 0.3 * random.nextGaussian());
        }
        return Stretch.of(curve, Long.MIN_VALUE / 2, Long.MAX_VALUE / 2, 0);
    }
}
