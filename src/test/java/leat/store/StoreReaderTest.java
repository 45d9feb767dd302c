package leat.store;

import static leat.signal.Tick.PERIOD_MICROS;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.watch.Outcome;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StoreReaderTest {

    @TempDir private Path folder;
    private Path file;
    private Store store;
    private StoreReader reader;

    @BeforeEach
    void open() {
        file = folder.resolve("leat.db");
        store = Store.open(file);
        store.startRun("0.1.0", "hash", "site: boatyard", 100);
        reader = StoreReader.open(file);
    }

    @AfterEach
    void close() {
        reader.close();
        store.close();
    }

    @Test
    void a_fresh_store_is_read_after_its_daemon_went_down() {
        store.endRun(200);
        store.close();

        try (StoreReader later = StoreReader.open(file)) {
            assertThat(later.runs(10))
                    .containsExactly(new Run(1, 100, OptionalLong.of(200), "0.1.0", "hash"));
            assertThat(later.configText("hash")).contains("site: boatyard");
            assertThat(later.configText("other")).isEmpty();
        }
    }

    @Test
    void a_killed_run_has_no_end() {
        store.close();
        store = Store.open(file);
        store.startRun("0.2.0", "hash", "site: boatyard", 300);

        assertThat(reader.runs(10))
                .containsExactly(
                        new Run(2, 300, OptionalLong.empty(), "0.2.0", "hash"),
                        new Run(1, 100, OptionalLong.empty(), "0.1.0", "hash"));
    }

    @Test
    void a_reader_sees_each_commit_at_once_and_may_stop_in_the_middle() {
        List<Long> seen = new ArrayList<>();
        store.commit(seconds(1, 0, 20));

        reader.inputs(
                "jet-1",
                0,
                Long.MAX_VALUE,
                (seq, input) -> {
                    if (seq == 1) {
                        store.commit(seconds(61, 20, 1));
                        assertThat(store.checkpoint()).isTrue();
                    }
                    seen.add(seq);
                });

        assertThat(seen).hasSize(60);
        assertThat(reader.lastSeq("jet-1")).isEqualTo(63);
    }

    @Test
    void the_newest_two_snapshots_are_kept_for_each_machine() {
        for (int seq = 1; seq <= 5; seq++) {
            Batch batch = new Batch();
            batch.snapshot(new Snapshot("jet-1", seq, 10 * seq, 3, new byte[] {1, (byte) seq}));
            batch.snapshot(new Snapshot("jet-2", 7, 70, 3, new byte[0]));
            store.commit(batch);
        }

        assertThat(reader.snapshots("jet-1"))
                .containsExactly(
                        new Snapshot("jet-1", 5, 50, 3, new byte[] {1, 5}),
                        new Snapshot("jet-1", 4, 40, 3, new byte[] {1, 4}));
        assertThat(reader.snapshots("jet-2"))
                .containsExactly(new Snapshot("jet-2", 7, 70, 3, new byte[0]));
        assertThat(reader.snapshots("jet-3")).isEmpty();
    }

    @Test
    void the_first_input_at_a_time_is_found_through_the_ticks() {
        store.commit(seconds(1, 100, 50)); // three inputs a second: tick, and two after it
        store.commit(seconds(151, 500, 10)); // after a gap

        assertThat(reader.firstSeqAt("jet-1", 0)).hasValue(1);
        assertThat(reader.firstSeqAt("jet-1", 100 * PERIOD_MICROS)).hasValue(1);
        assertThat(reader.firstSeqAt("jet-1", 120 * PERIOD_MICROS)).hasValue(61);
        assertThat(reader.firstSeqAt("jet-1", 120 * PERIOD_MICROS + 1)).hasValue(62);
        assertThat(reader.firstSeqAt("jet-1", 120 * PERIOD_MICROS + 600_000)).hasValue(64);
        assertThat(reader.firstSeqAt("jet-1", 300 * PERIOD_MICROS)).hasValue(151);
        assertThat(reader.firstSeqAt("jet-1", 600 * PERIOD_MICROS)).isEmpty();
        assertThat(reader.firstSeqAt("jet-9", 0)).isEmpty();
    }

    @Test
    void where_the_clock_was_set_back_the_first_passing_counts() {
        store.commit(seconds(1, 100, 50));
        Batch step = new Batch();
        step.fed("jet-1", 151, new ClockStep(110 * PERIOD_MICROS, 150 * PERIOD_MICROS));
        store.commit(step);
        store.commit(seconds(152, 110, 80));

        assertThat(reader.firstSeqAt("jet-1", 120 * PERIOD_MICROS)).hasValue(61);
        assertThat(reader.firstSeqAt("jet-1", 160 * PERIOD_MICROS)).hasValue(302);
    }

    @Test
    void pruning_takes_the_oldest_seconds_in_slices_and_spares_what_a_snapshot_needs() {
        store.commit(seconds(1, 0, 1_000));
        assertThat(store.prune(500, 0)).as("nothing to be taken up from yet").isZero();
        Batch snapshots = new Batch();
        snapshots.said("jet-1", 1, startup(0), "hash");
        snapshots.snapshot(new Snapshot("jet-1", 2_700, 900, 1, new byte[1]));
        store.commit(snapshots);
        store.commit(seconds(3_001, 1_000, 1));

        long slice = store.prune(200, 400);
        store.commit(seconds(3_004, 1_001, 1));
        long more = store.prune(200, 400);

        // Of 1001 seconds 601 are too many, then one more; the tick of the 602nd is the input 1804
        assertThat(slice).isEqualTo(400 * 3 - 2);
        assertThat(slice + more).isEqualTo(1_804);
        assertThat(reader.firstSeqAt("jet-1", 0)).hasValue(1_805);
        assertThat(reader.summary().samples()).isEqualTo(2_004 - (1_804 - 602));
        assertThat(reader.summary().startups()).isEqualTo(1);
        assertThat(store.prune(2_000, 0)).isEqualTo(2_698 - 1_804);
        List<Long> left = new ArrayList<>();
        reader.inputs("jet-1", 0, Long.MAX_VALUE, (seq, input) -> left.add(seq));
        assertThat(left).startsWith(2_699L).hasSize(308);
    }

    private static void remember(Batch batch, String machine, long seq) {
        batch.snapshot(new Snapshot(machine, seq, 30, 1, new byte[1]));
    }

    private long ticksOf(String machine) {
        List<Long> ticks = new ArrayList<>();
        reader.inputs(
                machine,
                0,
                Long.MAX_VALUE,
                (seq, input) -> {
                    if (input instanceof Tick) {
                        ticks.add(seq);
                    }
                });
        return ticks.size();
    }

    @Test
    void one_call_in_ten_seconds_keeps_up_with_sixty_four_machines() {
        Batch batch = new Batch();
        for (int machine = 1; machine <= 64; machine++) {
            for (int second = 0; second < 30; second++) {
                batch.fed("jet-" + machine, second + 1, new Tick(second * PERIOD_MICROS));
            }
            remember(batch, "jet-" + machine, 30);
        }
        store.commit(batch);

        store.prune(10, 20);

        for (int machine = 1; machine <= 64; machine++) {
            List<Long> left = new ArrayList<>();
            reader.inputs("jet-" + machine, 0, Long.MAX_VALUE, (seq, input) -> left.add(seq));
            assertThat(left).as("jet-%d", machine).hasSize(20).startsWith(11L);
        }
    }

    @Test
    void whatever_the_clock_said_what_came_first_goes_first() {
        store.commit(seconds(1, 1_000, 10));
        store.commit(seconds(31, 3, 10)); // an empty clock battery
        store.commit(seconds(61, 4_000_000_000L, 10)); // a century ahead
        store.commit(seconds(91, 1_020, 10));
        Batch snapshot = new Batch();
        remember(snapshot, "jet-1", 120);
        store.commit(snapshot);

        assertThat(store.prune(10, 40)).isZero();
        store.commit(seconds(121, 1_030, 1));
        store.prune(5, 31);

        List<Long> left = new ArrayList<>();
        reader.inputs("jet-1", 0, Long.MAX_VALUE, (seq, input) -> left.add(seq));
        assertThat(left).startsWith(29L).hasSize(41 * 3 - 28);
    }

    @Test
    void less_than_a_day_goes_in_a_day_even_when_far_less_is_to_be_kept() {
        store.commit(seconds(1, 0, 900));
        Batch snapshot = new Batch();
        remember(snapshot, "jet-1", 2_700);
        store.commit(snapshot);

        for (int i = 0; i < 10; i++) {
            store.commit(seconds(2_701 + 30L * i, 900 + 10L * i, 10));
            store.prune(10, 60);
        }

        assertThat(ticksOf("jet-1")).isEqualTo(900 - 100);
    }

    @Test
    void a_machine_that_is_no_longer_watched_goes_as_the_others_age() {
        Batch both = new Batch();
        for (int second = 0; second < 30; second++) {
            both.fed("jet-1", second + 1, new Tick(second * PERIOD_MICROS));
            both.fed("jet-2", second + 1, new Tick(second * PERIOD_MICROS));
        }
        remember(both, "jet-1", 30);
        remember(both, "jet-2", 30);
        store.commit(both);

        for (int i = 0; i < 12; i++) {
            Batch one = new Batch();
            for (int second = 0; second < 10; second++) {
                long seq = 31 + 10L * i + second;
                one.fed("jet-1", seq, new Tick((seq - 1) * PERIOD_MICROS));
            }
            remember(one, "jet-1", 40 + 10L * i);
            store.commit(one);
            store.prune(10, 100);
        }

        assertThat(ticksOf("jet-1")).isEqualTo(100);
        assertThat(ticksOf("jet-2")).isZero();
    }

    @Test
    void startups_are_found_by_machine_and_time_newest_first() {
        Batch batch = new Batch();
        for (int i = 1; i <= 5; i++) {
            batch.said("jet-1", i, startup(i * 10), "hash");
            batch.said("jet-2", i, startup(i * 10 + 5), "hash");
        }
        store.commit(batch);

        assertThat(starts(StartupQuery.newest(3))).containsExactly(55L, 50L, 45L);
        assertThat(starts(StartupQuery.newest(100).of("jet-1").between(20, 40)))
                .containsExactly(30L, 20L);
        assertThat(starts(StartupQuery.newest(100).of("jet-3"))).isEmpty();
    }

    @Test
    void the_newest_startup_is_the_last_one_measured_whatever_the_clock_said() {
        Batch batch = new Batch();
        batch.said("jet-1", 1, startup(10), "hash");
        batch.said("jet-2", 1, startup(2_000_000), "hash"); // a clock that is ahead
        batch.said("jet-2", 2, startup(20), "hash");
        store.commit(batch);

        assertThat(starts(StartupQuery.newest(3))).containsExactly(20L, 2_000_000L, 10L);
        assertThat(starts(StartupQuery.newest(3).of("jet-2"))).containsExactly(20L, 2_000_000L);
    }

    @Test
    void an_alarm_is_found_standing_by_number_by_id_and_with_its_history() {
        AlarmChange raised = change("jet-1.ratio.x", 1, AlarmState.UNACKNOWLEDGED);
        AlarmChange seen = change("jet-1.ratio.x", 2, AlarmState.ACKNOWLEDGED);
        AlarmChange other = change("jet-1.rest.y", 1, AlarmState.UNACKNOWLEDGED);
        AlarmChange gone = change("jet-1.rest.y", 2, AlarmState.NORMAL);
        Batch batch = new Batch();
        batch.said("jet-1", 3, new Outcome.AlarmChanged(raised), "hash");
        batch.said("jet-1", 4, new Outcome.AlarmChanged(seen), "hash");
        batch.said("jet-1", 4, new Outcome.AlarmChanged(other), "hash");
        batch.said("jet-1", 5, new Outcome.AlarmChanged(gone), "hash");
        store.commit(batch);

        StoredAlarm first = new StoredAlarm(1, "jet-1", 4, seen, "hash");
        StoredAlarm second = new StoredAlarm(2, "jet-1", 5, gone, "hash");
        assertThat(reader.standingAlarms()).containsExactly(first);
        assertThat(reader.alarms(10)).containsExactly(second, first);
        assertThat(reader.alarm("2")).contains(second);
        assertThat(reader.alarm("jet-1.ratio.x")).contains(first);
        assertThat(reader.alarm("3")).isEmpty();
        assertThat(reader.alarmHistory("jet-1.ratio.x"))
                .extracting(StoredAlarm::change)
                .containsExactly(raised, seen);
        assertThat(reader.summary().alarms()).isEqualTo(2);
        assertThat(reader.summary().standingAlarms()).isEqualTo(1);
    }

    @Test
    void a_message_is_owed_once_and_due_until_delivered() {
        Batch owed = new Batch();
        owed.owes(message("m1", "log"));
        owed.owes(message("m1", "shop"));
        owed.owes(message("m2", "log"));
        owed.owes(message("m2", "log"));
        store.commit(owed);
        store.commit(owed);
        Batch marks = new Batch();
        marks.attempted(1);
        marks.attempted(1);
        marks.delivered(3, 500);
        marks.delivered(3, 600);

        assertThat(reader.due("log", 0, 10)).extracting(Owed::number).hasSize(2);
        store.commit(marks);

        assertThat(reader.due("log", 0, 10)).containsExactly(new Owed(1, 2, message("m1", "log")));
        assertThat(reader.due("shop", 0, 10)).hasSize(1);
        assertThat(reader.due("shop", 2, 10)).isEmpty();
        assertThat(reader.summary().dueMessages()).isEqualTo(2);
    }

    @Test
    void a_message_that_was_given_up_is_not_due_and_keeps_its_reason() {
        Batch owed = new Batch();
        owed.owes(message("m1", "log"));
        owed.owes(message("m2", "log"));
        store.commit(owed);
        Batch marks = new Batch();
        marks.givenUp(1, 700, "no such mailbox");
        marks.givenUp(1, 800, "later");

        store.commit(marks);

        assertThat(reader.due("log", 0, 10)).extracting(Owed::number).containsExactly(2L);
        assertThat(reader.summary().dueMessages()).isEqualTo(1);
        try (Db db = Db.reading(file)) {
            assertThat(
                            db.list(
                                    "SELECT given_up_because FROM messages"
                                            + " WHERE given_up IS NOT NULL",
                                    ResultRow::text))
                    .containsExactly("no such mailbox");
        }
    }

    @Test
    void people_find_plain_words_in_the_views() {
        Batch batch = new Batch();
        batch.fed("jet-1", 1, Reading.good(Channel.INLET, 1_767_592_831_050_000L, 41.5));
        batch.fed(
                "jet-1",
                2,
                Reading.bad(Channel.BOOSTED, 1_767_592_831_050_001L, Quality.LOOP_BROKEN));
        store.commit(batch);

        try (Db db = Db.reading(file)) {
            List<String> lines =
                    db.list(
                            "SELECT machine, channel, utc, coalesce(value, '-'), quality FROM sample",
                            row ->
                                    row.text()
                                            + " "
                                            + row.text()
                                            + " "
                                            + row.text()
                                            + " "
                                            + (row.skip(1).text()));
            List<String> views =
                    db.list("SELECT name FROM sqlite_schema WHERE type = 'view'", ResultRow::text);

            assertThat(lines)
                    .containsExactly(
                            "jet-1 inlet 2026-01-05T06:00:31.050000Z good",
                            "jet-1 boosted 2026-01-05T06:00:31.050001Z loop-broken");
            for (String view : views) {
                assertThat(db.number("SELECT count(*) FROM (SELECT * FROM " + view + ")"))
                        .as(view)
                        .isNotNegative();
            }
        }
    }

    private List<Long> starts(StartupQuery query) {
        return reader.startups(query).stream().map(s -> s.startup().startedAtMicros()).toList();
    }

    /** Three inputs a second: the tick, and two readings half a second and a bit after it. */
    private static Batch seconds(long firstSeq, long firstSecond, int seconds) {
        Batch batch = new Batch();
        long seq = firstSeq;
        for (long s = firstSecond; s < firstSecond + seconds; s++) {
            long micros = s * PERIOD_MICROS;
            batch.fed("jet-1", seq++, new Tick(micros));
            batch.fed("jet-1", seq++, Reading.good(Channel.INLET, micros + 500_000, 40));
            batch.fed("jet-1", seq++, Reading.good(Channel.BOOSTED, micros + 500_001, 100));
        }
        return batch;
    }

    private static Message message(String id, String route) {
        return new Message(
                id,
                route,
                "jet-1",
                "a",
                Grade.CRITICAL,
                9,
                "t",
                Message.Purpose.CALL,
                "raised",
                "s",
                "stop the booster",
                "{}",
                Optional.empty());
    }

    private static AlarmChange change(String id, int revision, AlarmState to) {
        Finding finding =
                new Finding(
                        Rule.RATIO,
                        Channel.BOOSTED,
                        Grade.WARNING,
                        1,
                        2,
                        Finding.Quantity.RATIO,
                        1.5,
                        2.0,
                        Finding.Sense.AT_LEAST,
                        Figure.of(40),
                        Figure.of(60),
                        List.of());
        return new AlarmChange(
                id, revision, AlarmEvent.RAISED, AlarmState.NORMAL, to, revision, 1, finding, "");
    }

    private static Outcome startup(long startedMicros) {
        return new Outcome.StartupMeasured(
                new Startup(
                        startedMicros,
                        startedMicros + 1,
                        Map.of(Measurand.TOP, Figure.of(101.5)),
                        List.of(),
                        true),
                new StartupVerdict(StartupVerdict.Outcome.GOOD, List.of()));
    }

    @Test
    void what_is_folded_for_one_route_is_not_stood_for_by_the_message_of_another() {
        Batch batch = new Batch();
        batch.owes(message("a/1", "hall", Optional.of("jet-1/more/x")));
        batch.owes(message("a/1", "shift", Optional.of("jet-1/more/x")));
        batch.owes(message("jet-1/more/x", "shift", Optional.empty()));
        store.commit(batch);
        Batch lost = new Batch();
        lost.unfolds();

        store.commit(lost);

        assertThat(reader.due("hall", 0, 10))
                .extracting(owed -> owed.message().id())
                .containsExactly("a/1");
        assertThat(reader.due("shift", 0, 10))
                .extracting(owed -> owed.message().id())
                .containsExactly("jet-1/more/x");
    }

    private static Message message(String id, String route, Optional<String> foldedInto) {
        return new Message(
                id,
                route,
                "jet-1",
                "a",
                Grade.WARNING,
                100,
                "t",
                Message.Purpose.CALL,
                "raised",
                "subject",
                "text",
                "{}",
                foldedInto);
    }
}
