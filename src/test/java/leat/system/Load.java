package leat.system;

import java.io.IOException;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.stream.IntStream;
import leat.bench.Bench;
import leat.bench.Pace;
import leat.bench.panel.ModbusPanel;
import leat.bench.panel.MqttPanel;
import leat.bench.panel.MqttSettings;
import leat.bench.panel.Panel;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioException;
import leat.bench.scenario.ScenarioLoader;

/**
 * Eight machines, six on two Modbus devices and two at a broker, that start, stop and fall from one
 * fault into another, so that several alarms a second come and go.
 */
final class Load implements AutoCloseable {

    private static final List<String> FIRST = names(1, 3);
    private static final List<String> SECOND = names(4, 6);
    private static final List<String> AT_BROKER = names(7, 8);

    private final StoppablePace pace = new StoppablePace();
    private final Bench bench;

    private Load(List<Panel> panels) throws ScenarioException {
        bench = Bench.start(scenario(), panels, pace, Clock.systemUTC());
    }

    static Load start(String brokerUrl) throws IOException, ScenarioException {
        MqttSettings mqtt =
                new MqttSettings(brokerUrl, "boatyard", MqttSettings.Payload.PLAIN, 1, 10);
        return new Load(
                List.of(
                        new ModbusPanel("cabinet-1", 0, FIRST),
                        new ModbusPanel("cabinet-2", 0, SECOND),
                        new MqttPanel("hall", mqtt, AT_BROKER)));
    }

    private static List<String> names(int from, int to) {
        return IntStream.rangeClosed(from, to).mapToObj(n -> "jet-" + n).toList();
    }

    private static Scenario scenario() throws ScenarioException {
        StringBuilder text =
                new StringBuilder(
                        """
                        name: load
                        description: Eight machines fall from one fault into another.
                        expect: Alarms that come and go all the time.
                        seed: 9
                        duration: 12 s
                        loop: true
                        machines:
                        """);
        for (int machine = 1; machine <= 8; machine++) {
            text.append(machine(machine));
        }
        return ScenarioLoader.parse("load", text.toString());
    }

    private static String machine(int number) {
        double at = 0.2 * number;
        String tap = number % 2 == 0 ? "inlet" : "boosted";
        return "  jet-"
                + number
                + ":\n    timeline:\n"
                + event(at, "do: start")
                + event(at + 2.5, "fault: weak-supply, severity: 0.7")
                + event(at + 4.5, "repair: weak-supply")
                + event(at + 4.6, "fault: broken-loop, tap: " + tap)
                + event(at + 6.0, "repair: broken-loop, tap: " + tap)
                + event(at + 6.1, "fault: set-too-high, severity: 1.0")
                + event(at + 8.5, "do: stop")
                + event(at + 8.5, "fault: leaking-valve, severity: 0.9");
    }

    private static String event(double at, String what) {
        return String.format(Locale.ROOT, "      - { at: %.1f s, %s }%n", at, what);
    }

    /** A {@code site.yaml} that reads all of it and tells a log of WARNING and a broker of all. */
    String siteYaml() {
        String text = bench.siteYaml();
        String routes =
                """
                routes:
                  hall: { mqtt: { connection: hall, topic_prefix: leat/boatyard } }
                  log: { log: { at_least: WARNING } }
                """;
        return text.substring(0, text.indexOf("routes:"))
                + QuickSite.LIMITS.replace("missing: 2 s", "missing: 1 s")
                + routes;
    }

    /** From now on all gauges stand as they are. */
    void freeze() {
        pace.frozen = true;
    }

    @Override
    public void close() {
        bench.close();
    }

    private static final class StoppablePace implements Pace {

        private final Pace real = Pace.realTime();
        private volatile boolean frozen;

        @Override
        public void await(Duration sinceStart) throws InterruptedException {
            real.await(sinceStart);
            if (frozen) {
                new CountDownLatch(1).await();
            }
        }
    }
}
