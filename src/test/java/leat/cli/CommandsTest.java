package leat.cli;

import static leat.cli.Ran.leat;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.alarm.ServiceChange;
import leat.measure.ClimbRemark;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Tick;
import leat.store.StoreReader;
import leat.watch.Outcome;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Commands as a person types them, on a store that a daemon left. */
class CommandsTest {

    private static final long SIX = StoredSite.SIX;

    @TempDir private static Path written;
    private static StoredSite stored;

    @TempDir Path folder;
    private StoredSite site;

    @BeforeEach
    void copy() throws IOException {
        site = stored.copyTo(folder);
    }

    @BeforeAll
    static void write() throws IOException {
        stored = StoredSite.in(written);
        stored.commit(
                (batch, hash) -> {
                    batch.fed("jet-1", 1, new Tick(SIX));
                    batch.said("jet-1", 1, new Outcome.StartupMeasured(startup(), verdict()), hash);
                    batch.said("jet-1", 1, new Outcome.AlarmChanged(weakBoost()), hash);
                    batch.fed(
                            "jet-1",
                            2,
                            new Instruction(
                                    SIX,
                                    "tech",
                                    new Order.Journal(
                                            Order.Entry.SERVICED,
                                            "new pump\u001b[31m\nnot a line of leat")));
                });
    }

    private static Startup startup() {
        return new Startup(
                SIX - 13_000_000,
                SIX,
                Map.ofEntries(
                        Map.entry(Measurand.BASE, Figure.of(0)),
                        Map.entry(Measurand.TOP, Figure.of(72.4)),
                        Map.entry(Measurand.INLET_REST, Figure.of(42)),
                        Map.entry(Measurand.INLET_RUNNING, Figure.of(40)),
                        Map.entry(Measurand.DEAD, Figure.absent(Absence.NO_RUN_SIGNAL)),
                        Map.entry(Measurand.RISE, Figure.of(1.25)),
                        Map.entry(Measurand.RISE_FROM_INLET, Figure.of(0.8)),
                        Map.entry(Measurand.START_TO_90, Figure.of(1.4)),
                        Map.entry(Measurand.OVERSHOOT, Figure.of(2)),
                        Map.entry(Measurand.RATIO, Figure.of(1.81)),
                        Map.entry(Measurand.TIME_TO_DOUBLE, Figure.absent(Absence.NOT_DOUBLED))),
                List.of(new ClimbRemark(ClimbRemark.Kind.TOP_UNLOADED)),
                true);
    }

    private static StartupVerdict verdict() {
        return new StartupVerdict(
                StartupVerdict.Outcome.GOOD, List.of(Remark.of(Remark.Kind.RISE_NOW, 1.25, 3)));
    }

    private static AlarmChange weakBoost() {
        Finding finding =
                new Finding(
                        Rule.RATIO,
                        Channel.BOOSTED,
                        Grade.WARNING,
                        SIX - 30_000_000,
                        SIX,
                        Finding.Quantity.RATIO,
                        1.81,
                        2.0,
                        Finding.Sense.AT_LEAST,
                        Figure.of(40),
                        Figure.of(72.4),
                        List.of());
        return new AlarmChange(
                "jet-1.ratio.20260105T060000Z-1",
                1,
                AlarmEvent.RAISED,
                AlarmState.NORMAL,
                AlarmState.UNACKNOWLEDGED,
                SIX,
                SIX,
                finding,
                "");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "run",
                "demo",
                "simulate",
                "check",
                "tell",
                "settings",
                "replay",
                "export",
                "backtest",
                "alarms",
                "startups",
                "ack",
                "shelve",
                "unshelve",
                "reset",
                "service",
                "out-of-service",
                "journal",
                "answer",
                "baseline",
                "measure"
            })
    void every_command_has_a_help_text(String command) {
        Ran ran = leat(command, "--help");

        assertThat(ran.code()).isZero();
        assertThat(ran.out()).contains("Usage: leat " + command);
    }

    @Test
    void no_command_and_an_unknown_one_are_wrong_words() {
        assertThat(leat().code()).isEqualTo(2);
        assertThat(leat("alarm").code()).isEqualTo(2);
        assertThat(leat("alarm").err()).contains("alarms");
        assertThat(leat("alarms", "--jason").code()).isEqualTo(2);
    }

    @Test
    void alarms_are_listed_with_what_was_measured_and_what_it_should_be() {
        Ran ran = leat("alarms", "--wide", "--site", site.file().toString());

        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("WARNING", "jet-1", "weak boost", "1.81 < 2.00")
                .contains("40.0 psi / 72.4 psi", "unacknowledged", "2026-01-05 06:00:00 +00:00");
    }

    private void change(AlarmChange change) {
        site.commit(
                (batch, hash) -> {
                    batch.said("jet-1", 3, new Outcome.AlarmChanged(change), hash);
                    batch.said(
                            "jet-1",
                            3,
                            new Outcome.ServiceChanged(
                                    new ServiceChange(
                                            SIX,
                                            true,
                                            SIX + 86_400_000_000L,
                                            "kim",
                                            "new\nseal",
                                            Optional.empty())),
                            hash);
                });
    }

    private static AlarmChange shelved() {
        AlarmChange raised = weakBoost();
        return new AlarmChange(
                raised.alarmId(),
                2,
                AlarmEvent.SHELVED,
                AlarmState.UNACKNOWLEDGED,
                AlarmState.SHELVED,
                SIX + 60_000_000,
                SIX,
                raised.finding(),
                "kim",
                new AlarmNotes(
                        AlarmState.UNACKNOWLEDGED,
                        7,
                        true,
                        OptionalLong.of(SIX + 3_600_000_000L),
                        "part on order",
                        Optional.empty()));
    }

    @Test
    void alarms_show_until_when_shelved_how_often_it_came_and_which_machine_is_in_service() {
        change(shelved());

        Ran ran = leat("alarms", "--wide", "--site", site.file().toString());

        assertThat(ran.out())
                .contains("shelved until 2026-01-05 07:00, active, comes and goes")
                .containsPattern("72\\.4 psi +7 +2026")
                .contains(
                        "jet-1 is in service, said kim at 2026-01-05 06:00:00 +00:00: new\\nseal.")
                .contains("leat service jet-1 off");
    }

    @Test
    void the_history_of_an_alarm_says_who_did_what_and_why() {
        change(shelved());

        Ran ran = leat("alarms", "--site", site.file().toString(), "--history", "1");

        assertThat(ran.out()).containsPattern("shelved .* kim +part on order");
    }

    @Test
    void the_health_of_the_alarms_stands_beside_targets_and_names_their_source()
            throws IOException {
        Ran text =
                leat(
                        "alarms",
                        "--site",
                        site.file().toString(),
                        "--health",
                        "--wide",
                        "--since",
                        "2026-01-05");
        Ran json =
                leat(
                        "alarms",
                        "--site",
                        site.file().toString(),
                        "--health",
                        "--json",
                        "--since",
                        "2026-01-05");

        assertThat(text.code()).isZero();
        assertThat(text.out())
                .contains("somebody was called 1 times", "ANSI/ISA-18.2-2016, 16.4")
                .containsPattern("alarms a day +0(\\.\\d+)? +144, at most 288 +good")
                .containsPattern("standing over 24 h now +1 +under 5 +good")
                .containsPattern("jet-1.ratio +1");
        assertThat(
                        leat(
                                        "alarms",
                                        "--site",
                                        site.file().toString(),
                                        "--health",
                                        "--since",
                                        "1970-01-01")
                                .out())
                .as("nothing is counted from before leat first ran")
                .startsWith("Alarms from 2026-01-05 06:00:00 +00:00 to ");
        JsonNode document = new ObjectMapper().readTree(json.out());
        assertThat(document.path("calls").asLong()).isEqualTo(1);
        assertThat(document.path("figures").path(0).path("verdict").asText()).isEqualTo("good");
        assertThat(document.path("top_ten").path(0).path("alarm").asText())
                .isEqualTo("jet-1.ratio");
    }

    @Test
    void shelving_asks_for_a_time_and_a_reason_and_no_longer_than_allowed() {
        String at = site.file().toString();

        assertThat(leat("shelve", "1", "--site", at, "--why", "x").code()).isEqualTo(2);
        assertThat(leat("shelve", "1", "--site", at, "--for", "8h").code()).isEqualTo(2);
        assertThat(leat("shelve", "1", "--site", at, "--for", "8h", "--why", " ").err())
                .contains("Say why");
        assertThat(leat("shelve", "1", "--site", at, "--for", "soon", "--why", "x").err())
                .contains("'soon' is no length of time");
        assertThat(leat("shelve", "1", "--site", at, "--for", "25h", "--why", "x").err())
                .contains("24 h at a time");
    }

    @Test
    void what_is_asked_while_leat_is_down_is_written_down_and_waits() {
        String at = site.file().toString();

        Ran shelve =
                leat(
                        "shelve",
                        "1",
                        "--site",
                        at,
                        "--for",
                        "8h",
                        "--why",
                        "on order",
                        "--by",
                        "kim");
        Ran service = leat("service", "jet-1", "on", "--site", at, "--by", "kim");

        assertThat(shelve.code()).isZero();
        assertThat(shelve.out()).contains("written down", "Shelved until");
        assertThat(service.out()).contains("written down");
        try (StoreReader reader = StoreReader.open(site.database())) {
            Instruction said = reader.waiting().get(0).instruction();
            Order.Shelve left = (Order.Shelve) said.order();
            assertThat(left.why()).isEqualTo("on order");
            assertThat(left.untilMicros() - said.atMicros()).isEqualTo(8 * 3_600_000_000L);
            assertThat(reader.waiting().get(0).takenUp(said.atMicros() + 77))
                    .isEqualTo(
                            new Instruction(
                                    said.atMicros() + 77,
                                    "kim",
                                    new Order.Shelve(
                                            left.alarmId(), left.untilMicros(), "on order")));
            assertThat(((Order.Journal) reader.waiting().get(1).instruction().order()).entry())
                    .isEqualTo(Order.Entry.SERVICE_ON);
        }
    }

    @Test
    void a_service_is_on_or_off_and_of_a_known_machine() {
        String at = site.file().toString();

        assertThat(leat("service", "jet-1", "maybe", "--site", at).err()).contains("on or off");
        assertThat(leat("service", "jet-9", "on", "--site", at).err()).contains("no machine jet-9");
        assertThat(leat("out-of-service", "1", "--site", at).err()).contains("Say why");
    }

    @Test
    void alarms_as_json_can_be_read_by_a_script() throws IOException {
        Ran ran = leat("alarms", "--site", site.file().toString(), "--json");

        JsonNode alarm = new ObjectMapper().readTree(ran.out()).path("alarms").path(0);
        assertThat(alarm.path("id").asText()).isEqualTo("jet-1.ratio.20260105T060000Z-1");
        assertThat(alarm.path("grade").asText()).isEqualTo("warning");
        assertThat(alarm.path("measured").asDouble()).isEqualTo(1.81);
        assertThat(alarm.path("raised_at").asText()).isEqualTo("2026-01-05T06:00:00Z");
        assertThat(alarm.path("number").asLong()).isEqualTo(1);
    }

    @Test
    void history_of_an_alarm_goes_by_number_or_id_and_an_unknown_one_is_said() {
        String database = site.database().toString();

        assertThat(leat("alarms", "--store", database, "--history", "1").out())
                .contains("weak boost");
        assertThat(
                        leat(
                                        "alarms",
                                        "--store",
                                        database,
                                        "--history",
                                        "jet-1.ratio.20260105T060000Z-1")
                                .code())
                .isZero();
        Ran unknown = leat("alarms", "--store", database, "--history", "77");
        assertThat(unknown.code()).isEqualTo(2);
        assertThat(unknown.err()).contains("There is no alarm 77");
    }

    @Test
    void startups_are_listed_and_an_absent_number_is_null_with_its_reason() throws IOException {
        Ran table = leat("startups", "--site", site.file().toString());
        Ran json = leat("startups", "--site", site.file().toString(), "--json");

        assertThat(table.out()).contains("1.25 s", "72.4 psi", "1.81", "rise good, running");
        JsonNode startup = new ObjectMapper().readTree(json.out()).path("startups").path(0);
        assertThat(startup.path("rise_s").asDouble()).isEqualTo(1.25);
        assertThat(startup.path("time_to_double_s").isNull()).isTrue();
        assertThat(startup.path("time_to_double_s_absent").asText()).contains("was not reached");
    }

    /** Of curves that were laid through climbs, and why there was none. */
    @Test
    void a_start_with_numbers_and_remarks_that_leat_no_longer_makes_is_still_shown()
            throws Exception {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + site.database());
                Statement statement = connection.createStatement()) {
            statement.executeUpdate(
                    "UPDATE outcome SET body = json_set(body,"
                            + " '$.startup.figures.damping_ratio', json('[0.7,0.1]'),"
                            + " '$.startup.figures.natural_hz', 'first-order-is-enough',"
                            + " '$.startup.remarks', json('[{\"kind\":\"no-curve\","
                            + "\"because\":\"straight-ramp\"},{\"kind\":\"top-loaded\"}]'))"
                            + " WHERE kind = 'startup-measured'");
        }

        Ran ran = leat("startups", "--site", site.file().toString(), "--json");

        assertThat(ran.code()).as(ran.err()).isZero();
        JsonNode startup = new ObjectMapper().readTree(ran.out()).path("startups").path(0);
        assertThat(startup.path("rise_s").asDouble()).isEqualTo(1.25);
        assertThat(startup.has("damping_ratio")).isFalse();
        assertThat(startup.path("remarks")).hasSize(1);
        assertThat(startup.path("remarks").path(0).asText()).contains("under the strokes");
        assertThat(leat("startups", "--site", site.file().toString()).out()).contains("72.4 psi");
    }

    @Test
    void hostile_text_in_the_journal_drives_no_terminal() {
        Ran ran = leat("journal", "--site", site.file().toString());

        assertThat(ran.code()).isZero();
        assertThat(ran.out()).contains("new pump").doesNotContain("\u001b");
        assertThat(ran.out().lines().filter(line -> line.contains("new pump"))).hasSize(1);
    }

    @Test
    void what_is_asked_while_leat_is_down_waits_and_says_so() {
        Ran ack = leat("ack", "--site", site.file().toString(), "1", "--by", "tech");
        Ran journal =
                leat(
                        "journal",
                        "--site",
                        site.file().toString(),
                        "jet-1",
                        "filter changed",
                        "--by",
                        "tech");

        assertThat(ack.code()).isZero();
        assertThat(ack.out()).contains("leat is not running");
        assertThat(journal.out()).contains("leat is not running");
        try (StoreReader reader = StoreReader.open(site.database())) {
            assertThat(reader.waiting()).hasSize(2);
        }
    }

    @Test
    void an_unknown_alarm_or_machine_is_said_plainly() {
        Ran ack = leat("ack", "--site", site.file().toString(), "77");
        Ran journal = leat("journal", "--site", site.file().toString(), "jet-7", "text");

        assertThat(ack.code()).isEqualTo(2);
        assertThat(ack.err()).contains("There is no alarm 77");
        assertThat(journal.code()).isEqualTo(2);
        assertThat(journal.err()).contains("There is no machine jet-7");
    }

    @Test
    void of_several_alarms_those_that_are_there_are_done_and_the_others_are_said() {
        String at = site.file().toString();

        Ran some = leat("ack", "77", "1", "--site", at, "--by", "tech");
        Ran twice = leat("reset", "1", "1", "--site", at, "--by", "tech");
        Ran wrong = leat("shelve", "1", "77", "--for", "9d", "--why", "x", "--site", at);

        assertThat(some.code()).isEqualTo(2);
        assertThat(some.err().lines()).containsExactly("There is no alarm 77. See: leat alarms");
        assertThat(some.out()).startsWith("alarm 1: it is written down");
        assertThat(twice.code()).as(twice.err()).isZero();
        assertThat(wrong.code()).isEqualTo(2);
        try (StoreReader reader = StoreReader.open(folder.resolve("data/leat.db"))) {
            assertThat(reader.waiting()).hasSize(3);
        }
    }

    @Test
    void check_reports_every_mistake_with_its_place_and_starts_nothing() throws IOException {
        String text = Files.readString(site.file());
        Files.writeString(
                site.file(),
                text.replace("type: uint16", "type: unit16").replace("poll: 50 ms", "pol: 50 ms"));

        Ran ran = leat("check", site.file().toString());

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err())
                .contains(
                        "unit16",
                        "Did you mean uint16?",
                        "pol",
                        "site.yaml:",
                        "nothing was started")
                .doesNotContain("Exception");
        assertThat(ran.err().lines().filter(line -> line.contains("site.yaml:"))).hasSize(5);
    }

    @Test
    void run_with_a_wrong_configuration_ends_with_two_and_starts_nothing() throws IOException {
        Files.writeString(site.file(), "site: { name: Boatyard }\n");

        Ran ran = leat("run", site.file().toString());

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("machines").contains("connections");
    }

    @Test
    void a_store_that_is_not_there_is_one_clear_line() {
        Ran ran = leat("alarms", "--store", folder.resolve("none.db").toString());

        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.err()).contains("none.db").doesNotContain("Exception");
        assertThat(ran.err().lines()).hasSize(1);
    }

    @Test
    void simulate_lists_what_it_can_play_and_refuses_what_it_cannot() {
        assertThat(leat("simulate").out()).contains("worn-booster", "leaking-valve", "healthy");
        Ran unknown = leat("simulate", "sunken-boat");
        assertThat(unknown.code()).isEqualTo(2);
        assertThat(unknown.err()).contains("sunken-boat", "worn-booster");
    }

    @Test
    void every_site_that_the_bench_writes_is_one_that_leat_reads() throws IOException {
        for (leat.bench.scenario.Scenario scenario : leat.bench.Bench.scenarios()) {
            try (leat.bench.panel.ModbusPanel panel =
                            new leat.bench.panel.ModbusPanel(
                                    "cabinet-1", 0, scenario.machineNames());
                    leat.bench.Bench bench = leat.bench.Bench.start(scenario, List.of(panel))) {
                Files.writeString(site.file(), bench.siteYaml());
            }

            Ran ran = leat("check", site.file().toString());

            assertThat(ran.err()).as(scenario.name()).doesNotContain("site.yaml");
            assertThat(ran.code()).as(scenario.name()).isZero();
        }
    }
}
