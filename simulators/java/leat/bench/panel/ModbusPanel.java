package leat.bench.panel;

import java.io.IOException;
import java.math.BigDecimal;
import java.net.InetAddress;
import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import leat.bench.scenario.MachineScript;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.sensor.Loop;
import leat.bench.sensor.Loops;
import leat.bench.sensor.Tap;

/**
 * A cabinet that shows machines over Modbus TCP, each as a unit of its own, with unit ids from 1 in
 * the order given. It is read only: functions 1 to 4. The register map is in {@code
 * simulators/README.md}. Thread-safe.
 */
public final class ModbusPanel implements Panel {

    private static final int USUAL_CLIENTS = 8;

    private final String name;
    private final Map<String, UnitImage> machines = new LinkedHashMap<>();
    private final Map<String, Loops> loops = new HashMap<>();
    private final Set<String> pausing = new HashSet<>();
    private final ModbusServer server;

    /**
     * Listens on 127.0.0.1 at once.
     *
     * @param name of the connection in {@code site.yaml}
     * @param port 0 for any free one
     * @param machines 1 to 247 names
     * @throws IOException if it cannot listen there
     */
    public ModbusPanel(String name, int port, List<String> machines) throws IOException {
        this(name, port, machines, USUAL_CLIENTS);
    }

    /**
     * Likewise for the machines of a scenario, with the loops that they have there.
     *
     * @throws IOException if it cannot listen there
     */
    public ModbusPanel(String name, int port, Scenario scenario) throws IOException {
        this(name, port, scenario.machineNames());
        for (MachineScript script : scenario.machines()) {
            loops.put(script.machine(), script.transducers().loops());
        }
        pausing.addAll(scenario.pausing());
    }

    /**
     * Likewise with another number of clients served at the same time.
     *
     * @param mostClients above 0; one more is turned away
     */
    public ModbusPanel(String name, int port, List<String> machines, int mostClients)
            throws IOException {
        if (machines.isEmpty() || machines.size() > 247) {
            throw new IllegalArgumentException(
                    "a Modbus panel has 1 to 247 machines: " + machines.size());
        }
        this.name = name;
        Map<Integer, UnitImage> units = new LinkedHashMap<>();
        for (String machine : machines) {
            UnitImage image = new UnitImage(units.size() + 1);
            units.put(image.unitId(), image);
            this.machines.put(machine, image);
        }
        InetAddress local = InetAddress.getByAddress(new byte[] {127, 0, 0, 1});
        server = new ModbusServer(local, port, units, mostClients);
    }

    /** The port that it listens at. */
    public int port() {
        return server.getPort();
    }

    @Override
    public void show(Instant at, List<Sample> samples) {
        for (Sample sample : samples) {
            UnitImage image = machines.get(sample.machine());
            if (image != null) {
                image.show(sample);
            }
        }
    }

    @Override
    public Wiring wiring() {
        Map<String, Wiring.Channels> channels = new LinkedHashMap<>();
        machines.forEach(
                (machine, image) -> channels.put(machine, channels(machine, image.unitId())));
        String settings =
                "{ modbus_tcp: { host: 127.0.0.1, port: "
                        + port()
                        + ", poll: 50 ms, timeout: 500 ms } }";
        return new Wiring(name, settings, channels);
    }

    private Wiring.Channels channels(String machine, int unitId) {
        Loops ofMachine = loops.getOrDefault(machine, Loops.USUAL);
        Map<String, String> lines = new LinkedHashMap<>();
        for (Tap tap : Tap.values()) {
            lines.put(tap.key(), pressure(unitId, tap, ofMachine.at(tap)));
        }
        lines.put("running", contact(unitId, RegisterMap.BIT_RUNNING));
        lines.put("valve", contact(unitId, RegisterMap.BIT_VALVE));
        if (pausing.contains(machine)) {
            lines.put("cutting", contact(unitId, RegisterMap.BIT_CUTTING));
        }
        return new Wiring.Channels(lines);
    }

    private String pressure(int unitId, Tap tap, Loop loop) {
        return String.format(
                Locale.ROOT,
                """
                from: %s
                register: { unit_id: %d, table: input_register, address: %d, type: uint16 }
                loop: [ { raw: 0, current: 0 mA }, { raw: %d, current: %s mA } ]
                scale: [ { at: %.0f mA, reads: 0 psi }, { at: %.0f mA, reads: %s psi } ]
                """,
                name,
                unitId,
                RegisterMap.COUNTS_INLET + tap.ordinal(),
                loop.fullCounts(),
                plain(loop.topMilliamps()),
                Loop.ZERO_MA,
                Loop.FULL_MA,
                plain(loop.rangePsi()));
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private String contact(int unitId, int address) {
        return String.format(
                Locale.ROOT,
                """
                from: %s
                register: { unit_id: %d, table: discrete_input, address: %d }
                """,
                name,
                unitId,
                address);
    }

    @Override
    public void close() {
        server.close();
    }
}
