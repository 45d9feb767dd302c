package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.withinPercentage;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Critical values of Student's t, two-sided 5 %: NIST/SEMATECH e-Handbook of Statistical Methods,
 * table 1.3.6.7.2, column 0.975, written down from memory.
 */
class StudentTTest {

    @ParameterizedTest
    @CsvSource({
        "1, 12.706",
        "2, 4.303",
        "3, 3.182",
        "4, 2.776",
        "5, 2.571",
        "9, 2.262",
        "14, 2.145",
        "29, 2.045",
        "59, 2.001",
        "100, 1.984"
    })
    void factors_are_those_of_the_table(long degrees, double printed) {
        assertThat(StudentT.factor95(degrees)).isCloseTo(printed, withinPercentage(0.5));
    }
}
