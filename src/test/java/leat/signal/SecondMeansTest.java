package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class SecondMeansTest {

    @Test
    void a_pressure_that_stands_does_not_fall_whether_it_reads_above_or_below_zero() {
        for (double psi : new double[] {40, 0, -0.3}) {
            assertThat(means(psi, psi, psi, psi, psi).fellEach(3, 0.05))
                    .as("%s psi", psi)
                    .isFalse();
        }
    }

    @Test
    void a_pressure_falls_each_second_where_every_one_takes_that_share_of_the_one_before() {
        assertThat(means(100, 90, 80, 70, 60).fellEach(3, 0.05)).isTrue();
        assertThat(means(100, 90, 80, 79, 60).fellEach(3, 0.05)).isFalse();
    }

    @Test
    void a_climb_is_the_mean_of_the_last_half_less_that_of_the_half_before() {
        assertThat(means(10, 20, 40, 50).climb(4)).isEqualTo(30);
        assertThat(means(50, 40, 20, 10).climb(4)).isEqualTo(-30);
        assertThat(means(10, 20).climb(4)).isEqualTo(Double.NEGATIVE_INFINITY);
    }

    private static SecondMeans means(double... psi) {
        SecondMeans means = new SecondMeans();
        for (double each : psi) {
            means.add(each);
        }
        return means;
    }
}
