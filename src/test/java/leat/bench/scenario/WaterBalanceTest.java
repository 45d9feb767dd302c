package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Conservation of mass over every scenario there is, the long ones for their first half day. */
class WaterBalanceTest {

    private static final Duration HALF_A_DAY = Duration.ofHours(12);

    static List<Scenario> scenarios() {
        return Catalogue.all();
    }

    @ParameterizedTest
    @MethodSource("scenarios")
    void no_water_is_lost(Scenario scenario) {
        Duration length =
                scenario.duration().compareTo(HALF_A_DAY) < 0 ? scenario.duration() : HALF_A_DAY;
        ScenarioRun run = new ScenarioRun(scenario, 1);

        while (run.nextMicros() * 1000 < length.toNanos()) {
            run.next();
        }

        assertThat(run.missingWaterShare()).isPositive().isLessThan(1e-6);
    }
}
