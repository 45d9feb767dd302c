package leat.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import leat.bench.line.LineSettings;
import leat.bench.panel.ModbusPanel;
import leat.bench.panel.MqttPanel;
import leat.bench.panel.MqttSettings;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Event;
import leat.bench.scenario.MachineScript;
import leat.bench.scenario.Scenario;
import org.junit.jupiter.api.Test;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

class SiteTextTest {

    private static Object at(Object yaml, Object... path) {
        Object found = yaml;
        for (Object step : path) {
            found =
                    step instanceof Integer index
                            ? ((List<?>) found).get(index)
                            : ((Map<?, ?>) found).get(step);
        }
        return found;
    }

    private static Object parse(String text) {
        return new Load(LoadSettings.builder().build()).loadFromString(text);
    }

    @Test
    void modbus_panel_is_wired_by_counts_and_loop_current() throws Exception {
        try (ModbusPanel panel = new ModbusPanel("cabinet-1", 0, List.of("jet-1", "jet-2"))) {
            Object site = parse(new SiteText("Boatyard", List.of(panel.wiring())).text());

            Object boosted = at(site, "machines", "jet-2", "channels", "boosted");
            assertThat(at(site, "site", "name")).isEqualTo("Boatyard");
            assertThat(at(site, "connections", "cabinet-1", "modbus_tcp", "port"))
                    .isEqualTo(panel.port());
            assertThat(at(boosted, "from")).isEqualTo("cabinet-1");
            assertThat(at(boosted, "register"))
                    .isEqualTo(
                            Map.of(
                                    "unit_id",
                                    2,
                                    "table",
                                    "input_register",
                                    "address",
                                    1,
                                    "type",
                                    "uint16"));
            assertThat(at(boosted, "loop", 1)).isEqualTo(Map.of("raw", 4095, "current", "20.5 mA"));
            assertThat(at(boosted, "scale", 1))
                    .isEqualTo(Map.of("at", "20 mA", "reads", "200 psi"));
            assertThat(at(site, "machines", "jet-1", "channels", "valve", "register", "address"))
                    .isEqualTo(1);
            assertThat(at(site, "tell", "log", "by", "log")).isEqualTo(Map.of());
        }
    }

    @Test
    void mqtt_panel_is_wired_by_topics_and_pointers() {
        MqttSettings settings =
                new MqttSettings("tcp://127.0.0.1:1", "bench", MqttSettings.Payload.JSON, 1, 20);
        try (MqttPanel panel = new MqttPanel("broker", settings, List.of("jet-1"))) {
            Object site = parse(new SiteText("Boatyard", List.of(panel.wiring())).text());

            assertThat(at(site, "connections", "broker", "mqtt", "url"))
                    .isEqualTo("tcp://127.0.0.1:1");
            assertThat(at(site, "machines", "jet-1", "channels", "inlet"))
                    .isEqualTo(
                            Map.of(
                                    "from",
                                    "broker",
                                    "topic",
                                    Map.of(
                                            "name", "bench/jet-1/inlet",
                                            "qos", 1,
                                            "value", "/psi",
                                            "time", "/t"),
                                    "unit",
                                    "psi"));
        }
    }

    @Test
    void the_contact_of_the_jet_is_wired_where_the_jet_is_ever_turned_off() throws Exception {
        MqttSettings settings =
                new MqttSettings("tcp://127.0.0.1:1", "bench", MqttSettings.Payload.PLAIN, 1, 20);
        Scenario usual = Catalogue.find("healthy").orElseThrow();
        Scenario paused = new Scenario("p", "", "", 1, usual.duration(), false, List.of(PAUSED));
        try (ModbusPanel modbus = new ModbusPanel("cabinet-1", 0, paused);
                MqttPanel mqtt = new MqttPanel("broker", settings, paused);
                ModbusPanel without = new ModbusPanel("cabinet-1", 0, usual)) {

            assertThat(lines(without.wiring())).doesNotContainKey("cutting");
            assertThat(lines(modbus.wiring()).get("cutting")).contains("address: 2");
            assertThat(lines(mqtt.wiring()).get("cutting")).contains("bench/jet-1/cutting");
        }
    }

    private static final MachineScript PAUSED =
            new MachineScript(
                    "jet-1",
                    LineSettings.USUAL,
                    List.of(new Event(Duration.ofSeconds(9), new Event.Pause())));

    private static Map<String, String> lines(leat.bench.panel.Wiring wiring) {
        return wiring.machines().get("jet-1").lines();
    }

    @Test
    void machine_on_two_panels_is_read_from_the_first() throws Exception {
        MqttSettings settings =
                new MqttSettings("tcp://127.0.0.1:1", "bench", MqttSettings.Payload.PLAIN, 1, 20);
        try (ModbusPanel modbus = new ModbusPanel("cabinet-1", 0, List.of("jet-1"));
                MqttPanel mqtt = new MqttPanel("broker", settings, List.of("jet-1", "jet-2"))) {
            List<leat.bench.panel.Wiring> wirings = List.of(modbus.wiring(), mqtt.wiring());

            Object site = parse(new SiteText("Boatyard", wirings).text());

            assertThat(at(site, "machines", "jet-1", "channels", "inlet", "from"))
                    .isEqualTo("cabinet-1");
            assertThat(at(site, "machines", "jet-2", "channels", "inlet", "from"))
                    .isEqualTo("broker");
        }
    }
}
