package leat.measure.fit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.assertj.core.data.Offset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * NIST Statistical Reference Datasets, nonlinear regression: Misra1a and BoxBOD, whose model {@code
 * y = b1 (1 - exp(-b2 x))} is the first-order rise with delay and base held at 0. Data, both starts
 * and certified values from the StRD files of NIST/ITL.
 */
class RegressionTest {

    @ParameterizedTest
    @CsvSource({"500, 0.0001", "250, 0.0005"})
    void misra1a_reaches_the_certified_values_from_both_certified_starts(
            double startAmplitude, double startRate) throws IOException {
        Regression fit = fit("misra1a", startAmplitude, startRate);

        assertThat(fit.parameter(FirstOrderRise.AMPLITUDE))
                .isCloseTo(2.3894212918E+02, relative(1e-7, 2.3894212918E+02));
        assertThat(fit.parameter(FirstOrderRise.RATE))
                .isCloseTo(5.5015643181E-04, relative(1e-7, 5.5015643181E-04));
        assertThat(fit.plainError(FirstOrderRise.AMPLITUDE))
                .isCloseTo(2.7070075241E+00, relative(1e-6, 2.7070075241E+00));
        assertThat(fit.plainError(FirstOrderRise.RATE))
                .isCloseTo(7.2668688436E-06, relative(1e-6, 7.2668688436E-06));
        assertThat(fit.residualSquares())
                .isCloseTo(1.2455138894E-01, relative(1e-9, 1.2455138894E-01));
        assertThat(fit.residualSd()).isCloseTo(1.0187876330E-01, relative(1e-9, 1.0187876330E-01));
    }

    @ParameterizedTest
    @CsvSource({"1, 1", "100, 0.75"})
    void boxbod_reaches_the_certified_values_from_both_certified_starts(
            double startAmplitude, double startRate) throws IOException {
        Regression fit = fit("boxbod", startAmplitude, startRate);

        assertThat(fit.parameter(FirstOrderRise.AMPLITUDE))
                .isCloseTo(2.1380940889E+02, relative(1e-7, 2.1380940889E+02));
        assertThat(fit.parameter(FirstOrderRise.RATE))
                .isCloseTo(5.4723748542E-01, relative(1e-7, 5.4723748542E-01));
        assertThat(fit.plainError(FirstOrderRise.AMPLITUDE))
                .isCloseTo(1.2354515176E+01, relative(1e-6, 1.2354515176E+01));
        assertThat(fit.plainError(FirstOrderRise.RATE))
                .isCloseTo(1.0455993237E-01, relative(1e-6, 1.0455993237E-01));
        assertThat(fit.residualSquares())
                .isCloseTo(1.1680088766E+03, relative(1e-9, 1.1680088766E+03));
        assertThat(fit.residualSd()).isCloseTo(1.7088072423E+01, relative(1e-9, 1.7088072423E+01));
    }

    private static Offset<Double> relative(double share, double of) {
        return within(share * of);
    }

    private static Regression fit(String set, double startAmplitude, double startRate)
            throws IOException {
        try (InputStream in =
                RegressionTest.class.getResourceAsStream("/references/strd_" + set + ".csv")) {
            List<String[]> rows =
                    new String(in.readAllBytes(), StandardCharsets.UTF_8)
                            .lines()
                            .skip(1)
                            .map(line -> line.split(","))
                            .toList();
            double[] x = rows.stream().mapToDouble(row -> Double.parseDouble(row[0])).toArray();
            double[] y = rows.stream().mapToDouble(row -> Double.parseDouble(row[1])).toArray();
            double[] start = {startAmplitude, startRate, 0, 0};
            return Regression.of(x, y, start, FirstOrderRise.AMPLITUDE, FirstOrderRise.RATE)
                    .orElseThrow();
        }
    }
}
