package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Checked against the data sets NumAcc1 to NumAcc4 of the NIST Statistical Reference Datasets,
 * univariate summary statistics. The data are written down from memory, the means and standard
 * deviations follow from them exactly.
 */
class MomentsTest {

    @Test
    void num_acc_1() {
        Moments moments = new Moments();

        moments.add(10000001);
        moments.add(10000003);
        moments.add(10000002);

        assertThat(moments.mean()).isEqualTo(10000002);
        assertThat(moments.sd()).isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource({"1.2, 1e-13", "1000000.2, 1e-9", "10000000.2, 1e-8"})
    void num_acc_2_to_4(double middle, double tolerance) {
        Moments moments = new Moments();

        moments.add(middle);
        IntStream.range(0, 500)
                .forEach(
                        i -> {
                            moments.add(middle - 0.1);
                            moments.add(middle + 0.1);
                        });

        assertThat(moments.count()).isEqualTo(1001);
        assertThat(moments.mean()).isCloseTo(middle, within(tolerance));
        assertThat(moments.sd()).isCloseTo(0.1, within(tolerance));
    }

    @Test
    void two_halves_put_together_are_the_whole() {
        Moments whole = new Moments();
        Moments one = new Moments();
        Moments other = new Moments();

        IntStream.range(0, 100).forEach(i -> whole.add(1e6 + i * i));
        IntStream.range(0, 30).forEach(i -> one.add(1e6 + i * i));
        IntStream.range(30, 100).forEach(i -> other.add(1e6 + i * i));
        one.addAll(other);
        one.addAll(new Moments());

        assertThat(one.count()).isEqualTo(100);
        assertThat(one.mean()).isCloseTo(whole.mean(), within(1e-6));
        assertThat(one.sd()).isCloseTo(whole.sd(), within(1e-6));
    }

    @Test
    void of_one_value_nothing_scatters() {
        Moments moments = new Moments();

        moments.add(7);

        assertThat(moments.sd()).isZero();
    }
}
