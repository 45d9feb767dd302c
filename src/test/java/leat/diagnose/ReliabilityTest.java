package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import leat.diagnose.Reliability.Given;
import org.junit.jupiter.api.Test;

/** The arithmetic of honest probabilities against published worked examples. */
class ReliabilityTest {

    /** How often each probability was forecast, and how often it rained. */
    private record Forecast(double probability, int days, int rained) {}

    /**
     * Probability of precipitation of 0.2 mm or more a day ahead, Finnish Meteorological Institute,
     * Tampere, 2003 (346 days), counted from the data that the R package {@code verification}
     * carries as {@code pop.light}.
     */
    private static final List<Forecast> TAMPERE =
            List.of(
                    new Forecast(0.0, 46, 1),
                    new Forecast(0.1, 55, 1),
                    new Forecast(0.2, 59, 5),
                    new Forecast(0.3, 41, 5),
                    new Forecast(0.4, 19, 4),
                    new Forecast(0.5, 22, 8),
                    new Forecast(0.6, 22, 6),
                    new Forecast(0.7, 34, 16),
                    new Forecast(0.8, 24, 16),
                    new Forecast(0.9, 11, 8),
                    new Forecast(1.0, 13, 11));

    private static List<Given> tampere() {
        List<Given> all = new ArrayList<>();
        for (Forecast forecast : TAMPERE) {
            for (int i = 0; i < forecast.days(); i++) {
                all.add(new Given(forecast.probability(), i < forecast.rained()));
            }
        }
        return all;
    }

    /**
     * The Bureau of Meteorology's worked example of these forecasts states Brier score 0.144,
     * reliability 0.025, resolution 0.060, uncertainty 0.179, skill 0.194
     * (cawcr.gov.au/projects/verification/POP3/POP3.html). Eleven bands keep the eleven
     * probabilities apart.
     */
    @Test
    void rain_forecasts_of_tampere_have_the_published_brier_score_and_its_three_parts() {
        Reliability found = Reliability.of(tampere(), 11);

        assertThat(found.bands()).hasSize(11);
        assertThat(found.brier()).isCloseTo(0.144, within(0.0005));
        assertThat(found.reliability()).isCloseTo(0.025, within(0.0005));
        assertThat(found.resolution()).isCloseTo(0.060, within(0.0005));
        assertThat(found.uncertainty()).isCloseTo(0.179, within(0.0005));
        assertThat(1 - found.brier() / found.uncertainty()).isCloseTo(0.194, within(0.0005));
        assertThat(found.within()).isCloseTo(0, within(1e-12));
    }

    /** In ten bands 90 % and 100 % stand together, and the parts no longer come to the whole. */
    @Test
    void what_a_band_holds_of_more_than_one_probability_is_told_apart() {
        Reliability found = Reliability.of(tampere());

        assertThat(found.bands()).hasSize(10);
        assertThat(found.within()).isNotCloseTo(0, within(1e-6));
        assertThat(found.reliability() - found.resolution() + found.uncertainty() + found.within())
                .isCloseTo(found.brier(), within(1e-12));
    }

    /**
     * The example of scikit-learn's {@code brier_score_loss}: true 0, 1, 1, 0, given 0.1, 0.9, 0.8,
     * 0.3 comes to 0.0375, printed there as 0.037 (documentation, from memory).
     */
    @Test
    void four_forecasts_have_the_brier_score_of_a_library_s_documentation() {
        List<Given> four =
                List.of(
                        new Given(0.1, false),
                        new Given(0.9, true),
                        new Given(0.8, true),
                        new Given(0.3, false));

        assertThat(Reliability.of(four).brier()).isCloseTo(0.0375, within(1e-12));
    }

    /**
     * Nine samples in three bands come to 0.23778: M. Pavlovic, "Expected Calibration Error (ECE):
     * a step by step visual explanation", Towards Data Science, 2023.
     */
    @Test
    void nine_samples_have_the_calibration_error_of_a_published_walk_through() {
        List<Given> nine =
                List.of(
                        new Given(0.22, true),
                        new Given(0.64, true),
                        new Given(0.92, false),
                        new Given(0.42, true),
                        new Given(0.51, false),
                        new Given(0.15, false),
                        new Given(0.70, true),
                        new Given(0.37, true),
                        new Given(0.83, true));

        assertThat(Reliability.of(nine, 3).calibrationError()).isCloseTo(0.23778, within(5e-6));
    }

    @Test
    void certainty_stands_in_the_last_band_and_nothing_is_lost() {
        Reliability found = Reliability.of(List.of(new Given(1, true), new Given(0, false)));

        assertThat(found.bands())
                .extracting(Reliability.Band::from, Reliability.Band::to, Reliability.Band::count)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(0.0, 0.1, 1),
                        org.assertj.core.groups.Tuple.tuple(0.9, 1.0, 1));
        assertThat(found.brier()).isZero();
        assertThat(found.calibrationError()).isZero();
    }
}
