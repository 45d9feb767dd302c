package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class HouseTest {

    private static final long SECOND = 1_000_000;
    private static final long WEEK = 7 * 86_400;

    private static double[] week(House house, long seed) {
        return LongStream.range(0, WEEK).mapToDouble(s -> house.psi(s * SECOND, seed)).toArray();
    }

    @Test
    void wander_uses_its_band_and_never_leaves_it() {
        House house = new House(8, 0, 0, Duration.ZERO);

        double[] psi = week(house, 5);

        assertThat(Arrays.stream(psi).min().orElseThrow()).isBetween(-8.0, -5.0);
        assertThat(Arrays.stream(psi).max().orElseThrow()).isBetween(5.0, 8.0);
        assertThat(IntStream.range(1, psi.length).mapToDouble(s -> Math.abs(psi[s] - psi[s - 1])))
                .allMatch(step -> step < 0.01);
    }

    @Test
    void dips_come_as_often_and_as_deep_as_asked() {
        House house = new House(0, 6, 5, Duration.ofSeconds(8));

        double[] psi = week(house, 5);

        long begun =
                IntStream.range(1, psi.length).filter(s -> psi[s] < 0 && psi[s - 1] == 0).count();
        assertThat(begun).isBetween(24 * 7 * 6L * 95 / 100, 24 * 7 * 6L);
        assertThat(Arrays.stream(psi)).allMatch(p -> p == 0 || (p >= -5 && p <= -2.5));
    }

    @Test
    void a_scenario_with_a_house_moves_the_inlet_and_spares_the_level() throws ScenarioException {
        Scenario scenario =
                ScenarioLoader.parse(
                        "house.yaml",
                        """
                        name: house
                        description: Others draw water.
                        expect: Nothing.
                        seed: 4
                        duration: 2 h
                        machines:
                          jet-1:
                            supply: 45 psi
                            house: { wander: 6 psi, dips_per_hour: 20, dip: 8 psi }
                            timeline: [ { at: 10 s, do: start } ]
                        """);

        DoubleSummaryStatistics inlet =
                ScenarioRun.samples(scenario, 1)
                        .filter(s -> s.seconds() > 60)
                        .mapToDouble(s -> s.truth().inletPsi())
                        .summaryStatistics();
        DoubleSummaryStatistics level =
                ScenarioRun.samples(scenario, 1)
                        .filter(s -> s.seconds() > 60)
                        .mapToDouble(s -> s.truth().boostedPsi())
                        .summaryStatistics();

        // 45 psi and the wander, less the dips and what is lost while the machine draws
        assertThat(inlet.getMax()).isLessThan(45 + 6 - 2);
        assertThat(inlet.getMin()).isGreaterThan(45 - 6 - 8 - 6);
        assertThat(inlet.getMax() - inlet.getMin()).isGreaterThan(8);
        assertThat(level.getAverage()).isBetween(98.0, 101.0);
    }
}
