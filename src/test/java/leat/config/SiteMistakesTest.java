package leat.config;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class SiteMistakesTest {

    @TempDir Path folder;

    /** What is replaced in the good site => by what => path of the problem => words of it. */
    private static final String MISTAKES =
            """
            # spelling
              time_zone: =>   timezone: => site.timezone => Did you mean time_zone?
            type: uint16 => type: unit16 => machines.jet-1.channels.inlet.register.type => "unit16" ; int16, uint16, int32, uint32, float32 ; Did you mean uint16?
            from: WARNING => from: warning => tell.yard.about.from => Did you mean WARNING?
            table: coil => table: coils => machines.jet-1.channels.running.register.table => Did you mean coil?
                channels: =>     chanels: => machines.jet-1.chanels => Did you mean channels?
            Europe/London => Europe/Lodnon => site.time_zone => Did you mean Europe/London?
            limits: { rise => limits: { rises => machines.jet-1.limits.rises => Did you mean rise?
            show_pressure_in: bar => show_pressure_in: KPA => site.show_pressure_in => Did you mean kPa?
            # units
            poll: 50 ms => poll: 50 => connections.cabinet-1.modbus_tcp.poll => "50" has no unit ; 50 ms
            set: 100 psi => set: 100 => limits.level.set => "100" has no unit ; 100 psi or 100 bar or 100 kPa
            set: 100 psi => set: 7 Bar => limits.level.set => Did you mean bar?
            keep_samples: 30 d => keep_samples: 1,5 d => store.keep_samples => decimal point
            set: 100 psi => set: 20 bar => limits.level.set => out of range ; 0.689476 bar to 13.7895 bar
            falling: 0.2 psi/s => falling: 0.2 psi => limits.rest.falling => Did you mean psi/s?
            keep_alive: 15 s => keep_alive: 15 sec => connections.broker.mqtt.keep_alive => Did you mean s?
            keep_alive: 15 s => keep_alive: 15.5 s => connections.broker.mqtt.keep_alive => too fine
            keep_samples: 30 d => keep_samples: 1 m => store.keep_samples => min (minutes)
            at: 4 mA => at: 4 ma => machines.jet-1.channels.inlet.scale[0].at => Did you mean mA?
            at: 4 mA => at: 4 => machines.jet-1.channels.inlet.scale[0].at => a loop current, such as 4 mA
            at: 0, reads => at: 4 mA, reads => machines.jet-1.channels.filtered.scale[0].at => add loop
            # numbers and words
            port: 1502 => port: 99999 => connections.cabinet-1.modbus_tcp.port => "99999" ; 1 to 65535
            port: 1502 => port: "1502" => connections.cabinet-1.modbus_tcp.port => quotes
            port: 1502 => port: 15.5 => connections.cabinet-1.modbus_tcp.port => not a whole number
            qos: 1 => qos: 3 => machines.jet-1.channels.boosted.topic.qos => 0 to 2
            raw: 4095 => raw: .inf => machines.jet-1.channels.inlet.loop[1].raw => not a number
            raw: 4095 => raw: .nan => machines.jet-1.channels.inlet.loop[1].raw => not a number
            raw: 4095 => raw: 1e999 => machines.jet-1.channels.inlet.loop[1].raw => out of range
            reads: 200 psi => reads: 1e999 psi => machines.jet-1.channels.inlet.scale[1].reads => out of range
            poll: 50 ms => poll: 1e999999999 s => connections.cabinet-1.modbus_tcp.poll => out of range
            inverted: no => inverted: off => machines.jet-1.channels.running.inverted => Did you mean no?
            bleeds: no => bleeds: 0 => limits.rest.bleeds => Did you mean no?
            # addresses and topics
            host: 127.0.0.1 => host: 127.0.0.1:502 => connections.cabinet-1.modbus_tcp.host => under port
            url: tcp:// => url: mqtt:// => connections.broker.mqtt.url => tcp://host:port
            name: yard/jet-1/boosted => name: yard/+/boosted => machines.jet-1.channels.boosted.topic.name => wildcards
            name: yard/jet-1/boosted => name: "yard/#" => machines.jet-1.channels.boosted.topic.name => wildcards
            topic_prefix: leat/boatyard => topic_prefix: leat/ => tell.yard.by.mqtt.topic_prefix => no slash at its end
            name: yard/jet-1/boosted => name: "yard/\\x9b" => machines.jet-1.channels.boosted.topic.name => cannot stand here
            name: Boatyard => name: "Boat\\ud83dyard" => site.name => "Boat\\u{d83d}yard" ; on one line
            name: Boatyard => name: "Boat\\u0085yard" => site.name => on one line
            name: Boatyard => name: "Boat\\u2028yard" => site.name => "Boat\\u{2028}yard" ; on one line
            value: /psi => value: psi => machines.jet-1.channels.boosted.topic.value => RFC 6901
            address: 10, type: float32 => address: 65535, type: float32 => machines.jet-1.channels.filtered.register.address => at most 65534
            address: 0, type: uint16 => address: 65536, type: uint16 => machines.jet-1.channels.inlet.register.address => 0 to 65535
            address: 0, type: uint16 => address: 400101, type: uint16 => machines.jet-1.channels.inlet.register.address => 400101 looks like the 400001 style: holding register 101 there is address 100 here ; table: holding_register, address: 100
            address: 0, type: uint16 => address: 200101, type: uint16 => machines.jet-1.channels.inlet.register.address => 0 to 65535
            coil, address: 3 => coil, address: 3, type: int16 => machines.jet-1.channels.running.register.type => leave type out
            table: input_register => table: coil => machines.jet-1.channels.inlet.register.table => input_register, holding_register
            # what is missing or too much
              name: Boatyard\\n => (nothing) => site.name => is missing
            table: coil,  => (nothing) => machines.jet-1.channels.running.register.table => is missing
                    unit: psi\\n => (nothing) => machines.jet-1.channels.boosted => one of: scale, unit
                    unit: psi\\n =>         unit: psi\\n        loop: [ { raw: 0, current: 0 mA }, { raw: 9, current: 20 mA } ]\\n => machines.jet-1.channels.boosted.loop => add scale
            inverted: no => scale: [ ] => machines.jet-1.channels.running.scale => from, register, topic, inverted
                  user: leat\\n => (nothing) => connections.broker.mqtt.password => add user
            reads: 0 psi }, { at: 20 mA, reads: 200 psi } ] => reads: 0 psi } ] => machines.jet-1.channels.inlet.scale => exactly two points
            current: 20.5 mA => current: 0 mA => machines.jet-1.channels.inlet.loop => no line
            [ -15 psi, 300 psi ] => [ 300 psi, -15 psi ] => machines.jet-1.channels.filtered.range => upwards
              yard: { =>   Yard: { => tell.Yard => lower-case
            by: { log: { } } => by: { } => tell.log.by => one of: log, mqtt
            # repeats
                  valve: =>       running: => machines.jet-1.channels.running => stands twice ; line 40
            poll: 50 ms, => poll: 50 ms, poll: 20 ms, => connections.cabinet-1.modbus_tcp.poll => stands twice
            discrete_input, address: 0 => coil, address: 3 => machines.jet-1.channels.valve => jet-1's running
            holding_register, address: 10, type: float32 => input_register, address: 0, type: float32 => machines.jet-1.channels.filtered => takes a register ; jet-1's inlet
            name: yard/jet-1/boosted => name: leat/boatyard/status => machines.jet-1.channels.boosted => status topic
            # references
            running:\\n        from: cabinet-1 => running:\\n        from: cabinet1 => machines.jet-1.channels.running.from => no connection "cabinet1" ; Did you mean cabinet-1?
            running:\\n        from: cabinet-1 => running:\\n        from: broker => machines.jet-1.channels.running.register => MQTT broker
            from: broker\\n => from: cabinet-1\\n => machines.jet-1.channels.boosted.topic => Modbus TCP device
            connection: broker => connection: cabinet-1 => tell.yard.by.mqtt.connection => Modbus TCP device
            # limits side by side
            set: 100 psi => advisory: 130 psi => limits.level.advisory => 130 psi is above level.high_advisory (120 psi, its default)
            warning: 5 s => warning: 2 s => machines.jet-1.limits.rise.warning => 2 s is below rise.advisory (3 s, its default)
            poll: 50 ms => poll: 2 s => connections.cabinet-1.modbus_tcp.poll => signal.blind ; jet-1
            """;

    static Stream<Arguments> mistakes() {
        return MISTAKES.lines().filter(l -> !l.startsWith("#")).map(SiteMistakesTest::mistake);
    }

    private static Arguments mistake(String line) {
        String[] parts = line.replace("\\n", "\n").split(" => ");
        String replacement = parts[1].equals("(nothing)") ? "" : parts[1];
        return Arguments.of(parts[0], replacement, parts[2], List.of(parts[3].split(" ; ")));
    }

    @ParameterizedTest(name = "{1} instead of {0}")
    @MethodSource("mistakes")
    void each_mistake_is_the_one_that_is_reported(
            String target, String replacement, String path, List<String> words) {
        String text = GoodSite.with(target, replacement);

        List<Problem> problems = GoodSite.problems(text);

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).path()).isEqualTo(path);
        assertThat(problems.get(0).toString()).contains(words).hasLineCount(2);
    }

    private static final String INLET = "(?s)      inlet:.*?(?=      boosted:)";
    private static final String BOOSTED = "(?s)      boosted:.*?(?=      filtered:)";

    @Test
    void a_machine_needs_the_gauge_after_its_booster_and_no_other() {
        assertThat(GoodSite.problems(GoodSite.TEXT.replaceAll(INLET, ""))).isEmpty();
        assertThat(GoodSite.problems(GoodSite.TEXT.replaceAll(BOOSTED, "")))
                .singleElement()
                .extracting(Problem::path)
                .isEqualTo("machines.jet-1.channels.boosted");
    }

    @Test
    void a_problem_says_file_line_column_path_what_stood_there_and_what_is_allowed()
            throws IOException {
        Path file = folder.resolve("site.yaml");
        Files.writeString(file, GoodSite.with("type: uint16", "type: unit16"));

        LoadedSite loaded = SiteFile.load(file, GoodSite::environment);

        assertThat(loaded.problems().get(0).toString().lines())
                .containsExactly(
                        file
                                + ":28:74: machines.jet-1.channels.inlet.register.type: \"unit16\" is none of the words allowed",
                        "    one of: int16, uint16, int32, uint32, float32. Did you mean uint16?");
    }

    @Test
    void every_mistake_is_reported_in_one_go_in_the_order_of_the_file() {
        String text =
                """
                site: { name: Boatyard, timezone: UTC }
                store: { folder: data, keep_samples: 30 }
                connections:
                  Cabinet: { modbus_tcp: { host: "10.0.0.5:502", prot: 502, poll: 50 } }
                machines:
                  jet-1:
                    chanels:
                      inlet: { from: Cabinet, register: { table: input_register, adress: 0, type: unit16 }, unit: psig }
                      bosted: { from: nowhere, register: { table: coil, address: 70000, type: int16 }, scale: [ ] }
                    limits: { level: { set: 100 }, rise: { warnning: 5 s } }
                tell: { log: { by: { log: { } }, about: { from: advisory } } }
                """;

        List<Problem> problems = GoodSite.problems(text);

        assertThat(problems)
                .extracting(Problem::line, Problem::path)
                .containsExactly(
                        tuple(1, "site.timezone"),
                        tuple(2, "store.keep_samples"),
                        tuple(4, "connections.Cabinet"),
                        tuple(4, "connections.Cabinet.modbus_tcp.host"),
                        tuple(4, "connections.Cabinet.modbus_tcp.prot"),
                        tuple(4, "connections.Cabinet.modbus_tcp.poll"),
                        tuple(7, "machines.jet-1.chanels"),
                        tuple(8, "machines.jet-1.channels.inlet.from"),
                        tuple(8, "machines.jet-1.channels.inlet.register.adress"),
                        tuple(8, "machines.jet-1.channels.inlet.register.type"),
                        tuple(8, "machines.jet-1.channels.inlet.unit"),
                        tuple(9, "machines.jet-1.channels.bosted"),
                        tuple(9, "machines.jet-1.channels.boosted.from"),
                        tuple(9, "machines.jet-1.channels.boosted.register.table"),
                        tuple(9, "machines.jet-1.channels.boosted.register.address"),
                        tuple(9, "machines.jet-1.channels.boosted.scale"),
                        tuple(10, "machines.jet-1.limits.level.set"),
                        tuple(10, "machines.jet-1.limits.rise.warnning"),
                        tuple(11, "tell.log.about.from"));
    }

    @Test
    void the_last_address_may_be_used_but_not_passed() {
        String last = "holding_register, address: 65534, type: float32";

        List<Problem> problems =
                GoodSite.problems(
                        GoodSite.with("holding_register, address: 10, type: float32", last));

        assertThat(problems).isEmpty();
    }

    @Test
    void a_missing_key_is_reported_at_the_line_of_its_parent() {
        String text = GoodSite.with("table: coil, ", "");

        Problem problem = GoodSite.problems(text).get(0);

        assertThat(problem.line())
                .isEqualTo(GoodSite.lineOf(text, "register: { unit_id: 1, address: 3"));
    }

    /** Every key of the good site that stands at the start of a line, one letter left out. */
    @Test
    void every_key_that_lacks_a_letter_is_found_at_its_line_with_the_right_word() {
        List<String> lines = GoodSite.TEXT.lines().toList();
        List<String> names = List.of("cabinet-1", "broker", "jet-1", "log", "yard");
        for (int i = 0; i < lines.size(); i++) {
            String key = lines.get(i).strip().split(":", 2)[0];
            if (names.contains(key) || key.length() < 4) {
                continue;
            }
            String spoilt = lines.get(i).replaceFirst(key, key.charAt(0) + key.substring(2));
            List<String> text = new ArrayList<>(lines);
            text.set(i, spoilt);

            List<Problem> problems = GoodSite.problems(String.join("\n", text));

            assertThat(problems).as(spoilt).hasSize(1);
            assertThat(problems.get(0).line()).isEqualTo(i + 1);
            assertThat(problems.get(0).allowed()).endsWith("Did you mean " + key + "?");
        }
    }

    @Test
    void a_decimal_comma_between_brackets_is_recognised() {
        List<Problem> problems = GoodSite.problems(GoodSite.with("set: 100 psi", "set: 7,5 bar"));

        assertThat(problems)
                .extracting(Problem::allowed)
                .anyMatch(a -> a.contains("decimal point"));
    }

    @Test
    void two_connections_with_one_client_id_at_one_broker_would_throw_each_other_out() {
        String text =
                GoodSite.with(
                        "limits:\n  level",
                        "  second:\n    mqtt: { url: tcp://127.0.0.1:1883, client_id: leat-boatyard }\nlimits:\n  level");

        List<Problem> problems = GoodSite.problems(text);

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).path()).isEqualTo("connections.second.mqtt.client_id");
        assertThat(problems.get(0).what()).contains("leat-boatyard", "broker");
    }

    @Test
    void two_routes_to_the_same_topics_are_refused() {
        String text =
                GoodSite.TEXT
                        + "  again: { by: { mqtt: { connection: broker, topic_prefix: leat/boatyard } } }\n";

        List<Problem> problems = GoodSite.problems(text);

        assertThat(problems)
                .extracting(Problem::path)
                .containsExactly("tell.again.by.mqtt.topic_prefix");
    }

    @Test
    void contradictory_limits_of_the_site_are_reported_once_and_not_for_each_machine() {
        String text = GoodSite.with("set: 100 psi", "high_advisory: 150 psi");

        List<Problem> problems = GoodSite.problems(text);

        assertThat(problems)
                .extracting(Problem::path)
                .containsExactly("limits.level.high_advisory");
    }

    @Test
    void two_limits_that_were_both_written_are_reported_at_the_later_with_the_line_of_the_other() {
        String text =
                GoodSite.with(
                        "  level: { set: 100 psi, tolerance: 0.5 bar }",
                        "  rise:\n    critical: 10 s\n    warning: 11 s");

        List<Problem> problems = GoodSite.problems(text.replace("rise: { warning: 5 s }, ", ""));

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).path()).isEqualTo("limits.rise.warning");
        assertThat(problems.get(0).what()).contains("11 s is above rise.critical (10 s, line 22)");
    }
}
