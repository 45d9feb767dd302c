package leat.bench;

import static org.assertj.core.api.Assertions.assertThat;

import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Semaphore;
import leat.bench.panel.ModbusPanel;
import leat.bench.panel.Panel;
import leat.bench.panel.Wiring;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;

class BenchTest {

    private static final Clock STOPPED =
            Clock.fixed(Instant.parse("2026-01-05T06:00:00Z"), ZoneOffset.UTC);

    private final Scenario demo = Catalogue.find("demo").orElseThrow();

    /** Remembers what it was shown. */
    private static final class Memory implements Panel {
        private final List<Sample> shown = new CopyOnWriteArrayList<>();
        private volatile boolean closed;

        @Override
        public void show(Instant at, List<Sample> samples) {
            shown.addAll(samples);
        }

        @Override
        public Wiring wiring() {
            return new Wiring("memory", "{}", java.util.Map.of());
        }

        @Override
        public void close() {
            closed = true;
        }
    }

    @Test
    void panels_see_the_samples_of_the_offline_run_in_their_order() throws Exception {
        Memory memory = new Memory();
        try (Bench bench = Bench.start(demo, List.of(memory), sinceStart -> {}, STOPPED)) {

            boolean over = bench.awaitEnd(Duration.ofSeconds(30));

            assertThat(over).isTrue();
            assertThat(bench.isOver()).isTrue();
            assertThat(memory.shown).isEqualTo(ScenarioRun.samples(demo, Bench.SAMPLE_HZ).toList());
        }
        assertThat(memory.closed).isTrue();
    }

    @Test
    void an_injected_pace_decides_how_far_it_plays() {
        Semaphore ticks = new Semaphore(0);
        try (Bench bench = Bench.start(demo, List.of(), since -> ticks.acquire(), STOPPED)) {
            ticks.release(100);

            Awaitility.await().until(() -> bench.elapsed().equals(Duration.ofSeconds(5)));

            assertThat(bench.now()).hasSize(2);
            assertThat(bench.now().get(0).running()).isTrue();
            assertThat(bench.isOver()).isFalse();
        }
    }

    /** It never runs ahead of the wall's clock; how far a busy computer lags is left open. */
    @Test
    void real_time_passes_as_on_the_wall() {
        Scenario healthy = Catalogue.find("healthy").orElseThrow();
        long before = System.nanoTime();
        try (Bench bench = Bench.start(healthy, List.of())) {

            Awaitility.await()
                    .pollInterval(Duration.ofMillis(5))
                    .until(() -> bench.elapsed().compareTo(Duration.ofSeconds(2)) >= 0);

            assertThat(Duration.ofNanos(System.nanoTime() - before))
                    .isGreaterThan(Duration.ofMillis(1990));
        }
    }

    @Test
    void bench_is_read_over_modbus_while_it_plays() throws Exception {
        ModbusPanel panel = new ModbusPanel("cabinet-1", 0, demo.machineNames());
        Semaphore ticks = new Semaphore(0);
        try (Bench bench = Bench.start(demo, List.of(panel), since -> ticks.acquire(), STOPPED)) {
            ModbusTCPMaster master = new ModbusTCPMaster("127.0.0.1", panel.port(), 1000, false);
            master.connect();
            int atRest = master.readInputRegisters(1, 1, 1)[0].getValue();
            ticks.release(20 * 20);
            Awaitility.await().until(() -> bench.elapsed().equals(Duration.ofSeconds(20)));

            int running = master.readInputRegisters(1, 1, 1)[0].getValue();

            assertThat(atRest).isBetween(780, 820);
            assertThat(running).isEqualTo(bench.now().get(0).boostedCounts()).isBetween(2250, 2450);
            assertThat(bench.siteYaml()).contains("port: " + panel.port());
            master.disconnect();
        }
    }

    @Test
    void close_ends_the_thread_in_the_middle_of_the_play() {
        Bench bench = Bench.start(demo, List.of());

        bench.close();
        bench.close();

        assertThat(Thread.getAllStackTraces().keySet())
                .noneMatch(thread -> thread.getName().equals("bench") && thread.isAlive());
    }

    @Test
    void scenarios_are_listed_with_what_they_do() {
        assertThat(Bench.scenarios().get(0)).isEqualTo(demo);
    }
}
