package leat.phase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.IntPredicate;
import leat.signal.Gauges.Switch;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Figures invented: noise of a reading in psi, and what strokes add to the swing of a second. */
class DemandFinderTest {

    private static final int SECONDS = 600;
    private static final IntPredicate ON_AND_OFF = second -> second % 20 < 12;

    @ParameterizedTest
    @CsvSource({"0.3, 1.6", "0.3, 0.8", "0.7, 2.5", "0.1, 0.5"})
    void seconds_with_strokes_are_told_from_quiet_ones(double noise, double strokes) {
        List<Demand> told = told(noise, strokes, ON_AND_OFF, 20);

        for (int second = SECONDS / 2; second < told.size(); second++) {
            int inTurn = second % 20;
            Demand expected =
                    switch (inTurn) {
                        case 11, 12, 19, 0 -> Demand.CHANGING;
                        default -> inTurn < 12 ? Demand.DRAWN : Demand.PAUSED;
                    };
            assertThat(told.get(second)).as("second %d", second).isEqualTo(expected);
        }
    }

    @Test
    void strokes_slower_than_one_a_second_are_no_pauses() {
        List<Demand> told = told(0.3, 1.6, second -> second % 20 < 12 && second % 2 == 0, 20);

        for (int second = SECONDS / 2; second < told.size(); second++) {
            if (second % 20 > 1 && second % 20 < 9) {
                assertThat(told.get(second)).as("second %d", second).isEqualTo(Demand.DRAWN);
            }
        }
    }

    @Test
    void one_slow_stroke_in_a_pause_is_a_pause() {
        List<Demand> told =
                told(0.3, 1.6, second -> ON_AND_OFF.test(second) || second % 20 == 16, 20);

        assertThat(told.get(SECONDS - 20 + 15)).isEqualTo(Demand.PAUSED);
        assertThat(told.get(SECONDS - 20 + 16)).isEqualTo(Demand.PAUSED);
    }

    @Test
    void machine_that_always_cuts_is_never_taken_for_one_that_pauses() {
        assertThat(told(0.3, 1.6, second -> true, 20)).doesNotContain(Demand.PAUSED);
        assertThat(told(0.3, 1.6, second -> true, 20)).endsWith(Demand.DRAWN);
    }

    @ParameterizedTest
    @CsvSource({"0.7, 0.3, 20", "0.3, 0, 20", "0.3, 1.6, 4"})
    void where_strokes_do_not_show_nothing_is_told(double noise, double strokes, int hertz) {
        assertThat(told(noise, strokes, ON_AND_OFF, hertz)).containsOnly(Demand.UNKNOWN);
    }

    @Test
    void contact_decides_from_the_first_second_whatever_the_pressure_does() {
        DemandFinder finder = new DemandFinder();
        List<Demand> told = new ArrayList<>();
        for (int second = 0; second < 20 + DemandFinder.LATER_SECONDS; second++) {
            told.add(finder.second(20, 0.3, 0.3, second < 10 ? Switch.OFF : Switch.ON));
        }

        assertThat(told.subList(DemandFinder.LATER_SECONDS, told.size()))
                .startsWith(Demand.PAUSED)
                .endsWith(Demand.DRAWN)
                .doesNotContain(Demand.UNKNOWN);
        assertThat(told.get(9 + DemandFinder.LATER_SECONDS)).isEqualTo(Demand.CHANGING);
        assertThat(told.get(10 + DemandFinder.LATER_SECONDS)).isEqualTo(Demand.CHANGING);
    }

    /** What is told of each second of a run, with the jet on in some. */
    private static List<Demand> told(
            double noisePsi, double strokesPsi, IntPredicate jet, int readings) {
        Random random = new Random(1);
        DemandFinder finder = new DemandFinder();
        List<Demand> told = new ArrayList<>();
        for (int second = 0; second < SECONDS; second++) {
            double noise = noisePsi * (1 + 0.16 * random.nextGaussian());
            double swing = jet.test(second) ? strokesPsi * (1 + 0.1 * random.nextGaussian()) : 0;
            told.add(finder.second(readings, Math.hypot(noise, swing), noise, Switch.UNKNOWN));
        }
        return told.subList(DemandFinder.LATER_SECONDS, told.size());
    }
}
