package leat.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.zip.GZIPInputStream;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.rule.Baseline;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.StartupVerdict;
import leat.rule.Usual;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A store that the leat of version 3 wrote, with a table for each kind of outcome: two machines, a
 * learned baseline, alarms with all that people can do to them, instructions that wait.
 */
class OlderStoreTest {

    private static final long SIX = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z

    @TempDir private Path folder;
    private Path file;

    @BeforeEach
    void unpack() throws IOException {
        file = unpacked("version-3.db.gz", "leat.db");
    }

    private Path unpacked(String resource, String name) throws IOException {
        Path store = folder.resolve(name);
        try (InputStream packed = getClass().getResourceAsStream(resource)) {
            Files.copy(new GZIPInputStream(packed), store);
        }
        return store;
    }

    private static Map<String, Integer> kinds(StoreReader reader, String machine) {
        Map<String, Integer> kinds = new TreeMap<>();
        reader.outcomes(
                machine,
                0,
                Long.MAX_VALUE,
                said -> kinds.merge(said.outcome().getClass().getSimpleName(), 1, Integer::sum));
        return kinds;
    }

    @Test
    void every_outcome_is_there() {
        Store.open(file).close();

        try (StoreReader reader = StoreReader.open(file)) {
            assertThat(reader.machines()).containsExactly("jet-1", "jet-2");
            assertThat(kinds(reader, "jet-1"))
                    .isEqualTo(
                            Map.of(
                                    "PhaseChanged", 57,
                                    "StartupMeasured", 14,
                                    "SteadyMeasured", 14,
                                    "RestMeasured", 14,
                                    "AlarmChanged", 6,
                                    "LearningProgressed", 9,
                                    "BaselineLearned", 1,
                                    "InstructionRefused", 2));
            assertThat(kinds(reader, "jet-2"))
                    .isEqualTo(
                            Map.of(
                                    "PhaseChanged", 7,
                                    "StartupMeasured", 2,
                                    "SteadyMeasured", 1,
                                    "AlarmChanged", 11,
                                    "LearningProgressed", 2,
                                    "InstructionRefused", 2,
                                    "ServiceChanged", 1));
        }
    }

    @Test
    void startups_keep_their_numbers_and_figures() {
        Store.open(file).close();

        try (StoreReader reader = StoreReader.open(file)) {
            StoredStartup last = reader.startup("jet-1", 14).orElseThrow();
            assertThat(last.startup().startedAtMicros()).isEqualTo(1_767_593_982_050_000L);
            assertThat(last.startup().figure(Measurand.DEAD))
                    .isEqualTo(Figure.absent(Absence.NO_RUN_SIGNAL));
            assertThat(last.startup().topPsi().get()).isBetween(87.5, 88.5);
            assertThat(last.startup().topPsi().uncertainty()).isPresent();
            assertThat(reader.startup("jet-2", 2).orElseThrow().verdict().outcome())
                    .isEqualTo(StartupVerdict.Outcome.NO_BOOST);
            assertThat(reader.startups(StartupQuery.newest(100)))
                    .extracting(StoredStartup::name)
                    .startsWith("jet-2/2", "jet-2/1", "jet-1/14")
                    .hasSize(16);
        }
    }

    @Test
    void alarms_stand_as_they_stood() {
        Store.open(file).close();

        try (StoreReader reader = StoreReader.open(file)) {
            assertThat(reader.standingAlarms())
                    .extracting(
                            alarm -> alarm.number(),
                            alarm -> alarm.change().alarmId(),
                            alarm -> alarm.change().to(),
                            alarm -> alarm.change().finding().grade())
                    .containsExactly(
                            tuple(
                                    1L,
                                    "jet-1.baseline.20260105T061825Z-1",
                                    AlarmState.UNACKNOWLEDGED,
                                    Grade.ADVISORY),
                            tuple(
                                    2L,
                                    "jet-2.ratio.20260105T070049Z-1",
                                    AlarmState.SUPPRESSED,
                                    Grade.CRITICAL),
                            tuple(
                                    3L,
                                    "jet-2.level-low.20260105T070049Z-2",
                                    AlarmState.SUPPRESSED,
                                    Grade.WARNING));
            List<StoredAlarm> history = reader.alarmHistory("jet-1.baseline.20260105T061825Z-1");
            assertThat(history)
                    .extracting(alarm -> alarm.change().event())
                    .containsExactly(
                            AlarmEvent.RAISED,
                            AlarmEvent.ACKNOWLEDGED,
                            AlarmEvent.SHELVED,
                            AlarmEvent.UNSHELVED,
                            AlarmEvent.REMOVED,
                            AlarmEvent.RESTORED);
            assertThat(history.get(0).change().finding().remarks())
                    .containsExactly(
                            new Remark(
                                    Remark.Kind.SHARE_LESS,
                                    List.of(
                                            88.02926099752673,
                                            101.01210428024064,
                                            0.12852759949139603),
                                    "top_psi"),
                            new Remark(
                                    Remark.Kind.SHARE_MORE,
                                    List.of(
                                            1.6424209831440812,
                                            0.7575623614437217,
                                            1.1680340348668374),
                                    "time_to_level_s"),
                            Remark.of(Remark.Kind.STARTS_RUNNING, 3, 10));
            assertThat(history.get(4).change().notes().why())
                    .isEqualTo("gauge broken\nsince Monday");
            assertThat(reader.inService())
                    .extracting(MachineInService::machine)
                    .containsExactly("jet-2");
        }
    }

    @Test
    void what_is_usual_for_a_machine_is_still_known() {
        Store.open(file).close();

        try (StoreReader reader = StoreReader.open(file)) {
            Baseline baseline = reader.baseline("jet-1", Long.MAX_VALUE).orElseThrow();
            assertThat(baseline.learnedAtMicros()).isEqualTo(1_767_593_635_000_000L);
            assertThat(baseline.starts()).hasSize(10).startsWith(1_767_592_812_050_000L);
            assertThat(baseline.runs()).as("learned before runs were").isEmpty();
            assertThat(baseline.usual(Measurand.RISE))
                    .contains(new Usual(1.334385838886961, 0.09523496303020311, 10));
            assertThat(reader.baseline("jet-2", Long.MAX_VALUE)).isEmpty();
        }
    }

    @Test
    void what_people_did_and_asked_for_comes_back_in_their_words() {
        Store.open(file).close();

        List<Order> fed = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(file)) {
            reader.inputs("jet-1", 0, Long.MAX_VALUE, (seq, input) -> addOrder(input, fed));
            assertThat(fed)
                    .contains(
                            new Order.Acknowledge("jet-9.none"),
                            new Order.Shelve(
                                    "jet-1.baseline.20260105T061825Z-1",
                                    1_767_597_661_000_000L,
                                    "part \"ordered\", it's due"),
                            new Order.Remove(
                                    "jet-1.baseline.20260105T061825Z-1",
                                    "gauge broken\nsince Monday"));
            assertThat(reader.journal(Optional.of("jet-2"), 10))
                    .extracting(JournalLine::entry)
                    .containsExactly(
                            new Order.Journal(Order.Entry.SERVICE_ON, ""),
                            new Order.Journal(Order.Entry.SERVICED, "filter changed"),
                            new Order.Journal(
                                    Order.Entry.NOTE,
                                    "new seal, Zo\u00eb's Sto\u00df \ud83d\udca7"),
                            new Order.Journal(
                                    Order.Entry.NOTE, "nul\u0000inside, half a pair \ud83d"));
            assertThat(reader.waiting())
                    .extracting(WaitingInstruction::number, w -> w.instruction().order())
                    .containsExactly(
                            tuple(1L, new Order.Shelve("jet-1.x", SIX + 7_200_000_005L, "why not")),
                            tuple(2L, new Order.Journal(Order.Entry.LEARN, "sound")));
            assertThat(reader.due("log", 0, 10)).hasSize(2);
        }
    }

    private static void addOrder(Input input, List<Order> orders) {
        if (input instanceof Instruction instruction) {
            orders.add(instruction.order());
        }
    }

    /** One waiting instruction of the store has a reason with a NUL, kept in a form of its own. */
    @Test
    void what_cannot_be_carried_over_is_counted() {
        List<String> told;
        try (Db db = Db.writing(file)) {
            told = Schema.current().migrate(db);
        }

        assertThat(told).contains("instructions lost, their reason is no Unicode: 1");
    }

    @Test
    void numbers_keep_every_bit() throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                Statement statement = connection.createStatement()) {
            statement.executeUpdate(
                    "UPDATE startup_figure SET value = CASE measurand WHEN 'base_psi' THEN -0.0"
                            + " WHEN 'top_psi' THEN 0.1 + 0.2 WHEN 'rise_s' THEN 4.9e-324"
                            + " ELSE 1.7976931348623157e308 END WHERE value IS NOT NULL");
        }

        Store.open(file).close();

        try (StoreReader reader = StoreReader.open(file)) {
            Startup kept = reader.startup("jet-1", 1).orElseThrow().startup();
            assertThat(kept.basePsi().value()).hasValue(-0.0);
            assertThat(kept.topPsi().value()).hasValue(0.1 + 0.2);
            assertThat(kept.riseSeconds().value()).hasValue(Double.MIN_VALUE);
            assertThat(kept.ratio().value()).hasValue(Double.MAX_VALUE);
        }
    }

    /** The same store, which a leat of version 4 had brought to its own version before. */
    @Test
    void a_store_of_version_4_says_what_one_of_version_3_says() throws IOException {
        Path later = unpacked("version-4.db.gz", "later.db");

        Store.open(file).close();
        Store.open(later).close();

        try (StoreReader here = StoreReader.open(file);
                StoreReader there = StoreReader.open(later)) {
            for (String machine : here.machines()) {
                assertThat(outcomes(there, machine)).isEqualTo(outcomes(here, machine));
            }
            assertThat(there.standingAlarms()).isEqualTo(here.standingAlarms());
            assertThat(there.waiting()).isEqualTo(here.waiting());
        }
        assertThat(names(later)).isEqualTo(names(file));
    }

    /** Of what a leat of version 5 kept no second is thought to be new. */
    @Test
    void a_store_of_version_5_knows_how_many_seconds_it_keeps() throws IOException, SQLException {
        Path later = unpacked("version-5.db.gz", "later.db");

        Store.open(later).close();

        assertThat(kept(later)).hasSize(2);
        assertThat(kept(file)).hasSize(2);
        try (Store store = Store.open(later);
                StoreReader reader = StoreReader.open(later)) {
            assertThat(reader.alarms(100)).hasSizeGreaterThan(2);
            assertThat(store.prune(4, 24)).isPositive();
        }
        assertThat(kept(later)).hasSize(2);
    }

    /** Its starts told of curves through their climbs, and one why it had none. */
    @Test
    void numbers_and_remarks_that_leat_no_longer_makes_are_passed_over() throws Exception {
        Path later = unpacked("version-5.db.gz", "later.db");
        Store.open(later).close();
        String body = "SELECT group_concat(body) FROM outcome WHERE kind = 'startup-measured'";

        List<StoredStartup> starts;
        try (StoreReader reader = StoreReader.open(later)) {
            starts = reader.startups(StartupQuery.newest(100));
        }

        assertThat(starts).hasSize(16);
        assertThat(starts)
                .allSatisfy(start -> assertThat(start.startup().remarks()).isEmpty())
                .allSatisfy(start -> assertThat(start.startup().basePsi().isPresent()).isTrue());
        try (Db db = Db.reading(later)) {
            assertThat(db.list(body, ResultRow::text).get(0))
                    .contains("\"damping_ratio\":", "\"time_constant_s\":[", "\"no-curve\"");
        }
    }

    /** Seconds of each machine by the writer's own count, and that it counts right. */
    private static List<Long> kept(Path file) throws SQLException {
        Store.open(file).close();
        List<Long> kept = new ArrayList<>();
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                Statement statement = connection.createStatement();
                ResultSet row =
                        statement.executeQuery(
                                "SELECT ticks, (SELECT count(*) FROM input WHERE machine = id"
                                        + " AND kind = 100) FROM machine ORDER BY id")) {
            while (row.next()) {
                assertThat(row.getLong(1)).isEqualTo(row.getLong(2)).isPositive();
                kept.add(row.getLong(1));
            }
        }
        return kept;
    }

    /** Before version 5 they were sentences, and of a start that was cut short two in one. */
    @Test
    void why_there_is_no_figure_is_still_known() throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                Statement statement = connection.createStatement()) {
            statement.executeUpdate(
                    "UPDATE startup_figure SET value = NULL, uncertainty = NULL,"
                            + " absent = 'cut short: the run signal went off'"
                            + " WHERE measurand = 'rise_s'");
        }

        Store.open(file).close();

        try (StoreReader reader = StoreReader.open(file)) {
            assertThat(reader.startup("jet-1", 1).orElseThrow().startup().riseSeconds())
                    .isEqualTo(Figure.absent(Absence.CUT_SHORT));
            for (String machine : reader.machines()) {
                assertThat(outcomes(reader, machine).toString())
                        .doesNotContain(Absence.REASON_NOT_KNOWN.name());
            }
        }
    }

    private static List<Said> outcomes(StoreReader reader, String machine) {
        List<Said> said = new ArrayList<>();
        reader.outcomes(machine, 0, Long.MAX_VALUE, said::add);
        return said;
    }

    @Test
    void the_tables_are_those_of_a_new_store() {
        Path fresh = folder.resolve("fresh.db");
        Store.open(fresh).close();

        Store.open(file).close();

        assertThat(names(file)).isEqualTo(names(fresh));
    }

    private static List<String> names(Path file) {
        try (Db db = Db.reading(file)) {
            return db.list(
                    "SELECT name FROM sqlite_schema WHERE type <> 'table' UNION"
                            + " SELECT t.name || '.' || c.name FROM sqlite_schema t,"
                            + " pragma_table_info(t.name) c WHERE t.type = 'table' ORDER BY 1",
                    ResultRow::text);
        }
    }
}
