package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import leat.Gear;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Conservation of mass over every scenario there is, the long ones for their beginning. */
class WaterBalanceTest {

    /** By night half a day of the long ones. */
    private static final Duration MOST = Duration.ofMinutes(Gear.of(6, 720));

    static List<Scenario> scenarios() {
        return Catalogue.all();
    }

    @ParameterizedTest
    @MethodSource("scenarios")
    void no_water_is_lost(Scenario scenario) {
        Duration length = scenario.duration().compareTo(MOST) < 0 ? scenario.duration() : MOST;
        ScenarioRun run = new ScenarioRun(scenario, 1);

        while (run.nextMicros() * 1000 < length.toNanos()) {
            run.next();
        }

        assertThat(run.missingWaterShare()).isPositive().isLessThan(1e-6);
    }
}
