package leat.bench;

import static org.assertj.core.api.Assertions.assertThat;

import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import java.time.Duration;
import java.util.List;
import leat.bench.scenario.Sample;
import leat.bench.scenario.ScenarioRun;
import org.junit.jupiter.api.Test;

class FarmTest {

    @Test
    void each_machine_has_a_port_of_its_own_as_unit_1() throws Exception {
        try (Farm farm = Farm.start(8, 0)) {
            List<Integer> ports = farm.ports();

            assertThat(ports).hasSize(8).doesNotHaveDuplicates();
            for (int port : ports) {
                ModbusTCPMaster master = new ModbusTCPMaster("127.0.0.1", port, 1000, false);
                master.connect();
                assertThat(master.readInputRegisters(1, 0, 1)[0].getValue()).isBetween(1350, 1600);
                master.disconnect();
            }
            assertThat(farm.siteYaml()).contains("port: " + ports.get(7)).contains("jet-8:");
        }
    }

    @Test
    void machines_are_out_of_step_and_all_of_them_run_and_rest() {
        List<Sample> lap =
                ScenarioRun.samples(Farm.scenario(10), 1, Duration.ofSeconds(60)).toList();

        long busiest =
                java.util.stream.LongStream.range(0, 60)
                        .map(second -> starting(lap, second))
                        .max()
                        .orElseThrow();
        assertThat(busiest).isLessThanOrEqualTo(2);
        assertThat(lap.stream().filter(Sample::running).map(Sample::machine).distinct())
                .hasSize(10);
        assertThat(lap.stream().filter(s -> !s.running()).map(Sample::machine).distinct())
                .hasSize(10);
    }

    private static long starting(List<Sample> lap, long second) {
        return lap.stream().filter(s -> s.running() && s.micros() == second * 1_000_000).count()
                - lap.stream()
                        .filter(s -> s.running() && s.micros() == (second - 1) * 1_000_000)
                        .count();
    }
}
