package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.atomic.AtomicLong;
import leat.alarm.AlarmEvent;
import leat.alarm.Refusal;
import leat.config.ChannelSettings;
import leat.config.MachineSettings;
import leat.config.Point;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.StoreSettings;
import leat.deliver.Wording;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Remark;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.PressureUnit;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import leat.store.Store;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.watch.Watch;
import leat.words.Language;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The engine on a real store, with clocks that the test moves. */
class EngineTest {

    private static final long NOON = 1_767_614_400_000_000L; // 2026-01-05T12:00:00Z
    private static final long SECOND = 1_000_000;

    @TempDir Path folder;

    private final AtomicLong wall = new AtomicLong(NOON);
    private final AtomicLong nanos = new AtomicLong();
    private final EventClock clock = new EventClock(wall::get, nanos::get);
    private final Inbox inbox = new Inbox(clock);
    private Site site;
    private Store store;
    private Engine engine;
    private InstructionInbox desk;
    private UnstoredMessages unstored;
    private int commits;

    @BeforeEach
    void open() {
        site = site(Limits.DEFAULTS);
        start();
    }

    private void start() {
        store = Store.open(site.store().file());
        StoreView view = new StoreView(site.store().file(), store::generation);
        StoreReader reader = view.reader();
        List<Watched> machines =
                new Resume(reader, site, text -> Optional.of(site(Limits.DEFAULTS))).machines();
        desk = new InstructionInbox(view);
        unstored = new UnstoredMessages(new Wording(site)::unstored, () -> {});
        OwedMessages messages = OwedMessages.takenUp(site, reader, clock.nowMicros());
        store.startRun("test", site.hash(), site.text(), clock.nowMicros());
        engine =
                new Engine(
                        clock,
                        inbox,
                        store,
                        desk,
                        messages,
                        unstored,
                        site.hash(),
                        machines,
                        () -> commits++);
    }

    @AfterEach
    void close() {
        desk.close();
        store.close();
    }

    private Site site(Limits limits) {
        List<ChannelSettings> channels =
                List.of(channel(Channel.INLET), channel(Channel.BOOSTED), channel(Channel.RUNNING));
        return new Site(
                "Boatyard",
                ZoneId.of("UTC"),
                Language.ENGLISH,
                PressureUnit.PSI,
                new StoreSettings(folder, Duration.ofDays(30)),
                List.of(),
                List.of(new MachineSettings("jet-1", channels, limits)),
                List.of(
                        new RouteSettings.Log("log", RouteScope.from(Grade.ADVISORY)),
                        new RouteSettings.Log("daily", daily())),
                Optional.empty(),
                Optional.empty(),
                limits.changed().isEmpty() ? "a".repeat(64) : "b".repeat(64),
                "text");
    }

    /** What is CRITICAL, and a report at one minute past noon. */
    private static RouteScope daily() {
        return new RouteScope(
                Grade.CRITICAL,
                List.of(),
                Duration.ofHours(72),
                new RoutePolicy(
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        OptionalInt.empty(),
                        Optional.of(LocalTime.of(12, 1))));
    }

    private static ChannelSettings channel(Channel channel) {
        return new ChannelSettings(
                channel,
                "cabinet",
                new Point.Register(
                        1,
                        Point.Table.INPUT_REGISTER,
                        0,
                        Point.NumberType.UINT16,
                        Point.WordOrder.ABCD),
                new Transducer(Optional.empty(), TwoPoint.IDENTITY, -15, 500));
    }

    /** Half a second of readings at 20 Hz passes, then the engine has its turn. */
    private void half(double inlet, double boosted, int running) throws InterruptedException {
        for (int i = 0; i < 10; i++) {
            wall.addAndGet(50_000);
            nanos.addAndGet(50_000_000);
            long now = clock.nowMicros();
            inbox.offer("jet-1", Reading.good(Channel.RUNNING, now, running));
            inbox.offer("jet-1", Reading.good(Channel.INLET, now, inlet + 0.01 * (i % 3)));
            inbox.offer("jet-1", Reading.good(Channel.BOOSTED, now, boosted + 0.01 * (i % 2)));
        }
        engine.step();
    }

    private void run(double seconds, double inlet, double boosted, int running)
            throws InterruptedException {
        for (int i = 0; i < seconds * 2; i++) {
            half(inlet, boosted, running);
        }
    }

    private List<Input> stored() {
        List<Input> inputs = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            reader.inputs("jet-1", 0, Long.MAX_VALUE, (seq, input) -> inputs.add(input));
        }
        return inputs;
    }

    private List<StoredAlarm> alarms() {
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            return reader.alarms(100);
        }
    }

    @Test
    void every_reading_is_stored_and_every_second_has_its_tick() throws InterruptedException {
        run(10, 40, 0, 0);

        List<Input> inputs = stored();
        assertThat(inputs.stream().filter(i -> i instanceof Reading))
                .hasSizeBetween(19 * 30, 20 * 30);
        assertThat(inputs.stream().filter(i -> i instanceof Tick).map(Input::atMicros))
                .containsExactly(
                        NOON + SECOND,
                        NOON + 2 * SECOND,
                        NOON + 3 * SECOND,
                        NOON + 4 * SECOND,
                        NOON + 5 * SECOND,
                        NOON + 6 * SECOND,
                        NOON + 7 * SECOND,
                        NOON + 8 * SECOND,
                        NOON + 9 * SECOND,
                        NOON + 10 * SECOND);
        assertThat(commits).isEqualTo(10);
    }

    @Test
    void an_alarm_and_the_message_that_it_owes_are_committed_together()
            throws InterruptedException {
        run(10, 40, 0, 0);
        run(60, 40, 41, 1);

        assertThat(alarms()).hasSize(1);
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            assertThat(reader.due("log", 0, 10)).hasSize(1);
            assertThat(reader.due("log", 0, 10).get(0).message().alarmId())
                    .isEqualTo(alarms().get(0).change().alarmId());
        }
    }

    @Test
    void the_report_of_the_day_counts_starts_and_alarms_from_the_store()
            throws InterruptedException {
        run(10, 40, 0, 0);
        run(52, 40, 41, 1);

        try (StoreReader reader = StoreReader.open(site.store().file())) {
            assertThat(reader.due("daily", 0, 10))
                    .map(due -> due.message().event())
                    .containsExactly("raised", "all-is-well");
            assertThat(reader.due("daily", 0, 10).get(1).message().text())
                    .contains("- jet-1: 1 start, 1 alarm stands, last reading 2026-01-05 12:0");
        }
    }

    @Test
    void a_clock_that_is_set_is_recorded_and_ticks_go_on_from_there() throws InterruptedException {
        run(5, 40, 0, 0);
        wall.addAndGet(-3_600 * SECOND);
        run(5, 40, 0, 0);

        List<Input> inputs = stored();
        assertThat(inputs.stream().filter(i -> i instanceof ClockStep)).hasSize(1);
        assertThat(inputs.get(inputs.size() - 1).atMicros()).isLessThan(NOON);
        assertThat(inputs.stream().filter(i -> i instanceof Tick)).hasSizeBetween(9, 10);
    }

    @Test
    void what_people_ask_for_is_taken_up_within_a_second_and_refused_with_a_reason()
            throws InterruptedException {
        run(2, 40, 0, 0);
        long serviced;
        long unknown;
        try (InstructionBox box = InstructionBox.open(site.store().file())) {
            serviced = box.leave("jet-1", journal("new pump"));
            unknown = box.leave("jet-9", journal("no such machine"));
        }

        run(1.5, 40, 0, 0);

        try (InstructionBox box = InstructionBox.open(site.store().file())) {
            assertThat(box.fate(serviced).state()).isEqualTo(InstructionFate.State.TAKEN);
            assertThat(box.fate(unknown).state()).isEqualTo(InstructionFate.State.REFUSED);
            assertThat(box.fate(unknown).reason()).contains(new Refusal.NoSuchMachine("jet-9"));
        }
        assertThat(stored())
                .anyMatch(
                        i ->
                                i instanceof Instruction said
                                        && said.order() instanceof Order.Journal j
                                        && j.text().equals("new pump"));
    }

    private static Instruction journal(String text) {
        return new Instruction(NOON, "tech", new Order.Journal(Order.Entry.SERVICED, text));
    }

    @Test
    void acknowledging_through_the_store_reaches_the_alarm() throws InterruptedException {
        run(10, 40, 0, 0);
        run(60, 40, 41, 1);
        long number;
        try (InstructionBox box = InstructionBox.open(site.store().file())) {
            number =
                    box.leave(
                            "jet-1",
                            new Instruction(
                                    NOON,
                                    "tech",
                                    new Order.Acknowledge(box.alarm("1").orElseThrow().id())));
        }

        run(1.5, 40, 41, 1);

        assertThat(alarms().get(0).change().event()).isEqualTo(AlarmEvent.ACKNOWLEDGED);
        assertThat(alarms().get(0).change().by()).isEqualTo("tech");
        try (InstructionBox box = InstructionBox.open(site.store().file())) {
            assertThat(box.fate(number).state()).isEqualTo(InstructionFate.State.TAKEN);
        }
    }

    @Test
    void what_was_shelved_while_leat_was_down_is_shelved_when_it_runs_and_leaves_its_traces()
            throws InterruptedException {
        run(10, 40, 0, 0);
        run(60, 40, 41, 1);
        engine.finish();
        close();
        String id = alarms().get(0).change().alarmId();
        long until = clock.nowMicros() + 3_600 * SECOND;
        long number;
        try (InstructionBox box = InstructionBox.open(site.store().file())) {
            number =
                    box.leave(
                            "jet-1",
                            new Instruction(NOON, "kim", new Order.Shelve(id, until, "on order")));
        }

        start();
        engine.sayThatItWasDown();
        run(1.5, 40, 41, 1);

        try (InstructionBox box = InstructionBox.open(site.store().file());
                StoreReader reader = StoreReader.open(site.store().file())) {
            assertThat(box.fate(number).state()).isEqualTo(InstructionFate.State.TAKEN);
            leat.alarm.AlarmChange shelved =
                    reader.alarmHistory(id).stream()
                            .map(StoredAlarm::change)
                            .filter(c -> c.event() == AlarmEvent.SHELVED)
                            .findFirst()
                            .orElseThrow();
            assertThat(shelved.by()).isEqualTo("kim");
            assertThat(shelved.notes().why()).isEqualTo("on order");
            assertThat(shelved.notes().shelvedUntilMicros()).hasValue(until);
            assertThat(reader.due("log", 0, 10))
                    .anyMatch(due -> due.message().text().startsWith("Shelved until "));
        }
        assertThat(stored())
                .anyMatch(
                        i -> i instanceof Instruction said && said.order() instanceof Order.Shelve);
    }

    @Test
    void a_service_stands_in_the_journal_and_one_that_ends_in_vain_does_not()
            throws InterruptedException {
        run(3, 40, 0, 0);
        long vain;
        try (InstructionBox box = InstructionBox.open(site.store().file())) {
            vain = box.leave("jet-1", service(Order.Entry.SERVICE_OFF));
            box.leave("jet-1", service(Order.Entry.SERVICE_ON));
        }

        run(1.5, 40, 0, 0);

        try (InstructionBox box = InstructionBox.open(site.store().file());
                StoreReader reader = StoreReader.open(site.store().file())) {
            assertThat(box.fate(vain))
                    .isEqualTo(
                            new InstructionFate(
                                    InstructionFate.State.REFUSED,
                                    Optional.of(
                                            new Refusal.NotNow(
                                                    Refusal.Obstacle.NOT_IN_SERVICE,
                                                    Optional.empty()))));
            assertThat(reader.journal(Optional.empty(), 10))
                    .extracting(line -> line.entry().entry())
                    .containsExactly(Order.Entry.SERVICE_ON);
            assertThat(reader.inService())
                    .singleElement()
                    .satisfies(m -> assertThat(m.machine()).isEqualTo("jet-1"))
                    .satisfies(m -> assertThat(m.change().by()).isEqualTo("kim"));
        }
    }

    private static Instruction service(Order.Entry entry) {
        return new Instruction(NOON, "kim", new Order.Journal(entry, "new seal"));
    }

    @Test
    void a_store_that_is_held_by_another_program_delays_and_loses_nothing() throws Exception {
        run(3, 40, 0, 0);
        try (java.sql.Connection other =
                        java.sql.DriverManager.getConnection("jdbc:sqlite:" + site.store().file());
                java.sql.Statement statement = other.createStatement()) {
            statement.execute("BEGIN IMMEDIATE");
            run(2, 40, 0, 0);
            assertThat(engine.trouble()).contains("another program");
            statement.execute("ROLLBACK");
        }
        run(2, 40, 0, 0);

        assertThat(engine.trouble()).isEmpty();
        assertThat(stored().stream().filter(i -> i instanceof Reading))
                .hasSizeGreaterThanOrEqualTo(7 * 60 - 30);
        assertThat(stored().stream().filter(i -> i instanceof Tick)).hasSize(7);
    }

    @Test
    void after_an_orderly_end_the_next_run_goes_on_with_the_same_alarm()
            throws InterruptedException {
        run(10, 40, 0, 0);
        run(60, 40, 41, 1);
        engine.finish();
        String id = alarms().get(0).change().alarmId();
        close();

        start();
        run(30, 40, 41, 1);

        assertThat(alarms()).hasSize(1);
        assertThat(alarms().get(0).change().alarmId()).isEqualTo(id);
        assertThat(alarms().get(0).change().revision()).isEqualTo(1);
    }

    @Test
    void after_a_crash_the_inputs_since_the_snapshot_are_taken_up_again()
            throws InterruptedException {
        run(70, 40, 0, 0);
        run(80, 40, 41, 1);
        List<Input> before = stored();
        close(); // nothing is finished: as after a kill

        site = site(Limits.with(Map.of(Limit.LEVEL_SET, 90.0)));
        start();
        run(2, 40, 41, 1);

        assertThat(stored().subList(0, before.size())).isEqualTo(before);
        assertThat(alarms()).hasSize(1);
        assertThat(alarms().get(0).change().revision()).isEqualTo(1);
    }

    @Test
    void a_crash_before_the_first_snapshot_is_taken_up_from_the_first_input()
            throws InterruptedException {
        run(5, 40, 0, 0);
        run(40, 40, 41, 1);
        String id = alarms().get(0).change().alarmId();
        close();

        start();
        run(60, 40, 41, 1);

        assertThat(alarms()).hasSize(1);
        assertThat(alarms().get(0).change().alarmId()).isEqualTo(id);
        assertThat(alarms().get(0).change().revision()).isEqualTo(1);
    }

    @Test
    void an_hour_in_which_leat_was_down_is_no_fault_of_the_channels() throws InterruptedException {
        run(10, 40, 0, 0);
        engine.finish();
        close();
        wall.addAndGet(3_600 * SECOND);
        nanos.addAndGet(3_600 * SECOND * 1_000);

        start();
        engine.sayThatItWasDown();
        wall.addAndGet(3 * SECOND); // a slow sensor takes its time
        nanos.addAndGet(3 * SECOND * 1_000);
        engine.step();
        run(10, 40, 0, 0);

        assertThat(alarms()).isEmpty();
    }

    @Test
    void a_channel_that_stays_silent_after_a_restart_is_missing() throws InterruptedException {
        run(10, 40, 0, 0);
        engine.finish();
        close();
        wall.addAndGet(3_600 * SECOND);
        nanos.addAndGet(3_600 * SECOND * 1_000);

        start();
        engine.sayThatItWasDown();
        for (int i = 0; i < 8; i++) {
            wall.addAndGet(SECOND);
            nanos.addAndGet(SECOND * 1_000);
            engine.step();
        }

        assertThat(alarms())
                .hasSize(3)
                .allMatch(a -> a.change().finding().rule() == leat.rule.Rule.SIGNAL_MISSING);
    }

    @Test
    void alarms_of_a_past_that_cannot_be_taken_up_are_closed_by_legal_changes()
            throws InterruptedException {
        run(5, 40, 0, 0);
        run(40, 40, 41, 1);
        StoredAlarm standing = alarms().get(0);

        List<leat.alarm.AlarmChange> closing = Afresh.closing(standing.change(), clock.nowMicros());

        assertThat(closing).extracting(leat.alarm.AlarmChange::revision).containsExactly(2, 3);
        assertThat(closing)
                .allMatch(
                        c ->
                                leat.alarm.Transitions.after(c.from(), c.event())
                                        .equals(Optional.of(c.to())));
        assertThat(closing.get(1).to()).isEqualTo(leat.alarm.AlarmState.NORMAL);
        assertThat(closing.get(1).finding().remarks())
                .containsExactly(Remark.of(Remark.Kind.AFRESH_WITHOUT_PAST));
    }

    @Test
    void a_replay_of_what_is_stored_says_what_was_said_live() throws InterruptedException {
        run(20, 40, 0, 0);
        run(60, 40, 99, 1);
        run(30, 40, 30, 0);
        run(40, 40, 41, 1);
        List<Object> live = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            reader.outcomes("jet-1", 0, Long.MAX_VALUE, said -> live.add(said.outcome()));
        }

        List<Object> replayed = new ArrayList<>();
        Watch watch = new Watch(Watched.watchSettings(site.machines().get(0)));
        stored().forEach(input -> watch.feed(input, replayed::add));

        assertThat(replayed).isEqualTo(live).hasSizeGreaterThan(5);
    }

    @Test
    void after_a_restart_no_reading_of_the_first_second_is_taken_for_one_of_the_future()
            throws InterruptedException {
        run(10, 40, 0, 0);
        engine.finish();
        close();
        wall.addAndGet(3_600 * SECOND);
        nanos.addAndGet(3_600 * SECOND * 1_000);
        engine = null;
        start();
        engine.sayThatItWasDown();
        run(5, 40, 0, 0);

        List<Input> inputs = stored();
        Watch watch = new Watch(Watched.watchSettings(site.machines().get(0)));
        inputs.forEach(input -> watch.feed(input, outcome -> {}));
        assertThat(watch.glance().ahead()).isZero();
    }
}
