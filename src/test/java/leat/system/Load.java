package leat.system;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
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
 * Four machines, two on a Modbus device and two at a broker, that start, stop and fall from one
 * fault into another, so that in nearly every second some alarm comes or goes.
 */
final class Load implements AutoCloseable {

    private static final int MACHINES = 4;
    private static final List<String> AT_CABINET = List.of("jet-1", "jet-2");
    private static final List<String> AT_BROKER = List.of("jet-3", "jet-4");

    /** As short as the settings allow; nothing ever chatters, so that every change is told. */
    private static final String LIMITS =
            """
            limits:
              ratio: { arm: 0 s, warning_delay: 0 s, critical_delay: 0 s, off_delay: 0 s }
              level: { arm: 0 s, delay: 0 s, high_delay: 0 s, off_delay: 0 s }
              rise: { advisory: 1 s, warning: 2 s, critical: 3 s, relaxed_critical: 5 s }
              rest: { arm: 1 s, delay: 0 s, off_delay: 0 s }
              inlet: { arm: 0 s, delay: 0 s, critical_delay: 0 s, off_delay: 0 s }
              signal: { missing: 500 ms, stuck: 1 h, off_delay: 0 s }
              alarm: { chatter_count: 50, chatter_window: 10 s }
            """;

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
                        new ModbusPanel("cabinet", 0, AT_CABINET),
                        new MqttPanel("hall", mqtt, AT_BROKER)));
    }

    private static Scenario scenario() throws ScenarioException {
        StringBuilder text =
                new StringBuilder(
                        """
                        name: load
                        description: Four machines fall from one fault into another.
                        expect: Alarms that come and go all the time.
                        seed: 9
                        duration: 8 s
                        loop: true
                        machines:
                        """);
        for (int machine = 1; machine <= MACHINES; machine++) {
            text.append(machine(machine));
        }
        return ScenarioLoader.parse("load", text.toString());
    }

    /**
     * A broken loop of the filtered pressure hides nothing else: twice it comes and goes, and the
     * rest comes on top of it.
     */
    private static String machine(int number) {
        double at = 0.4 * number;
        return "  jet-"
                + number
                + ":\n    timeline:\n"
                + event(0.1, "do: start")
                + event(at, "fault: broken-loop, tap: filtered")
                + event(at + 0.5, "fault: weak-supply, severity: 0.7")
                + event(at + 1.0, "repair: broken-loop, tap: filtered")
                + event(at + 2.1, "repair: weak-supply")
                + event(at + 3.1, "fault: set-too-high, severity: 1.0")
                + event(at + 4.0, "fault: broken-loop, tap: filtered")
                + event(at + 4.6, "repair: set-too-high")
                + event(at + 5.0, "repair: broken-loop, tap: filtered")
                + event(at + 5.1, "do: stop")
                + event(at + 5.2, "fault: leaking-valve, severity: 0.9");
    }

    private static String event(double at, String what) {
        return String.format(Locale.ROOT, "      - { at: %.1f s, %s }%n", at, what);
    }

    /**
     * A {@code site.yaml} that reads all of it and tells a broker and a receiver of webhooks of
     * everything, and a log of what is a WARNING.
     *
     * @param webhook where the receiver listens
     * @param secret file with the secret that signs what it gets
     */
    String siteYaml(URI webhook, Path secret) {
        String text = bench.siteYaml();
        String routes =
                """
                tell:
                  hall: { by: { mqtt: { connection: hall, topic_prefix: leat/boatyard } } }
                  desk: { by: { webhook: { url: "%s", secret: { file: %s } } }, bundles_over: 1000 }
                  log: { by: { log: { } }, about: { from: WARNING } }
                """;
        return text.substring(0, text.indexOf("tell:"))
                + LIMITS
                + String.format(Locale.ROOT, routes, webhook, secret);
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
