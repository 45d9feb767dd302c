package leat.measure;

import static org.assertj.core.api.Assertions.assertThatCode;

import java.util.List;
import java.util.Random;
import leat.Gear;
import org.junit.jupiter.api.Test;

/** Whatever the readings, each number is finite or absent with a reason: nothing throws. */
class AnyReadingsTest {

    private static final int CASES = Gear.of(1_000, 5_000);

    @Test
    void gaps_jumps_still_lines_and_single_readings_are_measured_or_refused() {
        for (long seed = 1; seed <= CASES; seed++) {
            Stretch curve = anything(new Random(seed * 0x9E3779B97F4A7C15L));
            assertThatCode(() -> measureAll(curve)).as("seed %d", seed).doesNotThrowAnyException();
        }
    }

    private static void measureAll(Stretch curve) {
        Noise.of(curve).ifPresent(noise -> measureAll(curve, noise));
    }

    private static void measureAll(Stretch curve, Noise noise) {
        StateLevels levels = StateLevels.of(curve, noise);
        Figure base = levels.base();
        for (Figure top : List.of(levels.unloaded(), levels.loaded())) {
            Crossings climb = Crossings.of(curve, 0, base, top, noise);
            double until = levels.strokesFromSecond();
            Aberrations.of(curve, climb, base, top, noise, until);
            Settling.of(curve, climb, base, top, noise, until, 1);
            FixedThreshold.after10(curve, 0, climb, base, 75, noise);
        }
        Ripple.of(curve, noise);
        Wander.of(curve, noise);
    }

    private static Stretch anything(Random random) {
        Curve curve = new Curve();
        int readings = random.nextInt(random.nextBoolean() ? 12 : 400);
        double step = random.nextInt(3) == 0 ? 0 : AnalyticClimb.TWELVE_BITS_PSI;
        double noise = random.nextInt(3) * 0.5;
        int kind = random.nextInt(5);
        double level = random.nextInt(3) * 40;
        long at = 0;
        for (int i = 0; i < readings; i++) {
            boolean gap = random.nextInt(60) == 0;
            at += 1 + random.nextInt(100_000) + (gap ? 2_000_000 : 0);
            boolean jump = kind > 0 && random.nextInt(30) == 0;
            level = jump ? random.nextDouble() * 120 - 3 : level;
            level += kind == 2 ? 3 * random.nextGaussian() : 0;
            double wave = kind == 3 ? 4 * Math.sin(0.4 * i) : 0;
            double wild = kind == 4 && i % 40 == 7 ? 90 : 0;
            double psi = level + wave + wild + noise * random.nextGaussian();
            curve.add(at, step > 0 ? Math.rint(psi / step) * step : psi);
        }
        return Stretch.of(curve, Long.MIN_VALUE / 2, Long.MAX_VALUE / 2, 0);
    }
}
