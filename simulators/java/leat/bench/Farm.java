package leat.bench;

import java.io.IOException;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import leat.bench.line.LineSettings;
import leat.bench.panel.ModbusPanel;
import leat.bench.panel.Panel;
import leat.bench.scenario.Event;
import leat.bench.scenario.MachineScript;
import leat.bench.scenario.Scenario;

/**
 * Many healthy machines that start and stop for ever, out of step with one another, each behind a
 * TCP port of its own: something to measure a watcher's load with. One thread runs all models.
 * Thread-safe.
 */
public final class Farm implements AutoCloseable {

    private static final int MOST_MACHINES = 1_000;
    private static final int CLIENTS_PER_PORT = 2;
    private static final Duration LAP = Duration.ofSeconds(60);
    private static final Duration RUNNING = Duration.ofSeconds(35);
    private static final long SEED = 64;

    private final List<ModbusPanel> panels;
    private final Bench bench;

    private Farm(List<ModbusPanel> panels, Bench bench) {
        this.panels = panels;
        this.bench = bench;
    }

    /**
     * Starts a farm in real time.
     *
     * @param machines 1 to 1000
     * @param firstPort the ports are this and those after it; 0 for any free ones
     * @throws IOException if a port is taken; then none stays open
     */
    public static Farm start(int machines, int firstPort) throws IOException {
        Scenario scenario = scenario(machines);
        List<ModbusPanel> panels = new ArrayList<>();
        try {
            for (String machine : scenario.machineNames()) {
                int port = firstPort == 0 ? 0 : firstPort + panels.size();
                String connection = "cabinet-" + machine;
                panels.add(new ModbusPanel(connection, port, List.of(machine), CLIENTS_PER_PORT));
            }
        } catch (IOException e) {
            panels.forEach(Panel::close);
            throw e;
        }
        List<Panel> shown = List.copyOf(panels);
        Bench bench = Bench.start(scenario, shown, Pace.realTime(), Clock.systemUTC());
        return new Farm(List.copyOf(panels), bench);
    }

    static Scenario scenario(int machines) {
        if (machines < 1 || machines > MOST_MACHINES) {
            throw new IllegalArgumentException(
                    "a farm has 1 to " + MOST_MACHINES + " machines: " + machines);
        }
        List<MachineScript> scripts = new ArrayList<>();
        for (int i = 0; i < machines; i++) {
            Duration start = LAP.minus(RUNNING).multipliedBy(i).dividedBy(machines);
            scripts.add(
                    new MachineScript(
                            String.format(Locale.ROOT, "jet-%d", i + 1),
                            LineSettings.USUAL,
                            List.of(
                                    new Event(start, new Event.Start()),
                                    new Event(start.plus(RUNNING), new Event.Stop()))));
        }
        return new Scenario(
                "farm",
                machines + " sound machines start and stop out of step.",
                "Nothing.",
                SEED,
                LAP,
                true,
                scripts);
    }

    /** The port of each machine, in the order of their names. */
    public List<Integer> ports() {
        return panels.stream().map(ModbusPanel::port).toList();
    }

    /** The text of a {@code site.yaml} that reads every machine. */
    public String siteYaml() {
        return bench.siteYaml();
    }

    @Override
    public void close() {
        bench.close();
    }

    /**
     * Runs a farm in a process of its own, prints its {@code site.yaml}, and ends when its input
     * does or when it is told to.
     *
     * @param arguments number of machines, then the first port; both may be left out
     */
    public static void main(String... arguments) throws IOException {
        int machines = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 64;
        int firstPort = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 0;
        try (Farm farm = start(machines, firstPort)) {
            System.out.println("# ports: " + farm.ports());
            System.out.println(farm.siteYaml());
            System.out.flush();
            int read = System.in.read();
            while (read >= 0) {
                read = System.in.read();
            }
        }
    }
}
