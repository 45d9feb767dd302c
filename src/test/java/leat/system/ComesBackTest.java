package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import leat.Gear;
import leat.alarm.AlarmState;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Input;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The daemon as a process that is killed, stopped, and started again. */
@Timeout(120)
class ComesBackTest {

    private static final Duration SOON = Duration.ofSeconds(20);

    /** SIGTERM may take 2 s; the rest is for a machine that is busy with other tests. */
    private static final Duration LONGEST_END = Duration.ofSeconds(4);

    private static final Set<Channel> WIRED =
            Set.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING);

    @TempDir Path folder;

    private Cabinet cabinet;
    private Ledger ledger;

    @BeforeEach
    void start_the_field_device() throws IOException {
        cabinet = new Cabinet();
        ledger = new Ledger(folder.resolve("data/leat.db"));
        writeSite("");
    }

    @AfterEach
    void close_the_field_device() {
        cabinet.close();
    }

    @Tag(Gear.THOROUGH)
    @Test
    void killed_while_an_alarm_stands_it_has_the_same_alarm_and_says_nothing_twice()
            throws Exception {
        String id;
        cabinet.show(12, 102);
        try (LeatProcess first = LeatProcess.watching(folder)) {
            id = awaitStanding(Rule.INLET, AlarmState.UNACKNOWLEDGED).change().alarmId();
            awaitAllDelivered();
            first.kill();
            assertThat(timesSaid(first, "jet-1: inlet")).isEqualTo(1);
        }

        for (int round = 1; round <= 2; round++) {
            try (LeatProcess again = LeatProcess.watching(folder)) {
                awaitSecondsSinceRestart(5);
                again.kill();
                assertThat(timesSaid(again, "jet-1: inlet")).isZero();
            }
            assertThat(standing()).extracting(a -> a.change().alarmId()).containsExactly(id);
            assertThat(ledger.owed("log")).hasSize(1);
        }

        cabinet.show(40, 102);
        try (LeatProcess last = LeatProcess.watching(folder)) {
            awaitStanding(Rule.INLET, AlarmState.RETURNED_UNACKNOWLEDGED);
            awaitAllDelivered();
            last.terminate();
        }
        assertThat(ledger.events("jet-1"))
                .extracting(Ledger.Event::alarmId, Ledger.Event::event)
                .containsExactly(tuple(id, "raised"), tuple(id, "returned"));
        assertSound(3);
    }

    @Tag(Gear.THOROUGH)
    @Test
    void killed_and_started_with_other_limits_it_has_the_same_alarm_judged_by_the_new_ones()
            throws Exception {
        String id;
        cabinet.show(12, 102);
        try (LeatProcess first = LeatProcess.watching(folder)) {
            id = awaitStanding(Rule.INLET, AlarmState.UNACKNOWLEDGED).change().alarmId();
            first.kill();
        }

        writeSite("    limits: { inlet: { warning: 5 psi, critical: 2 psi } }\n");
        try (LeatProcess again = LeatProcess.watching(folder)) {
            await().atMost(SOON)
                    .until(() -> standing().get(0).change().finding().grade() == Grade.ADVISORY);
            again.kill();
        }

        writeSite("    limits: { inlet: { advisory: 6 psi, warning: 5 psi, critical: 2 psi } }\n");
        try (LeatProcess last = LeatProcess.watching(folder)) {
            awaitStanding(Rule.INLET, AlarmState.RETURNED_UNACKNOWLEDGED);
            last.terminate();
        }
        assertThat(ledger.events("jet-1"))
                .extracting(Ledger.Event::alarmId, Ledger.Event::event)
                .containsExactly(tuple(id, "raised"), tuple(id, "eased"), tuple(id, "returned"));
        assertSound(2);
    }

    @Tag(Gear.THOROUGH)
    @Test
    void acknowledged_while_it_runs_and_while_it_is_down() throws Exception {
        cabinet.show(12, 150);
        try (LeatProcess first = LeatProcess.watching(folder)) {
            StoredAlarm inlet = awaitStanding(Rule.INLET, AlarmState.UNACKNOWLEDGED);
            awaitStanding(Rule.LEVEL_HIGH, AlarmState.UNACKNOWLEDGED);

            LeatProcess ack = acknowledge(Long.toString(inlet.number()));

            assertThat(ack.log()).contains("alarm " + inlet.number() + ": done.");
            assertThat(ack.exitCode()).isZero();
            assertThat(state(Rule.INLET)).contains(AlarmState.ACKNOWLEDGED);
            first.kill();
        }
        StoredAlarm level = standing(Rule.LEVEL_HIGH).orElseThrow();

        LeatProcess ack = acknowledge(level.change().alarmId());

        assertThat(ack.log()).contains("it is written down; leat is not running");
        assertThat(ack.exitCode()).isZero();
        assertThat(state(Rule.LEVEL_HIGH)).contains(AlarmState.UNACKNOWLEDGED);
        try (LeatProcess again = LeatProcess.watching(folder)) {
            awaitStanding(Rule.LEVEL_HIGH, AlarmState.ACKNOWLEDGED);
            assertThat(state(Rule.INLET)).contains(AlarmState.ACKNOWLEDGED);
            again.terminate();
        }
        assertThat(ledger.events("jet-1"))
                .filteredOn(event -> event.event().equals("acknowledged"))
                .hasSize(2);
        assertSound(1);
    }

    @Test
    void told_to_end_it_writes_everything_down_and_ends_within_two_seconds() throws Exception {
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            awaitSecondsSinceRestart(2);

            long told = nowMicros();
            Duration took = leat.terminate();

            System.out.printf("SIGTERM to the end: %d ms%n", took.toMillis());
            assertThat(took).isLessThan(LONGEST_END);
            assertEndedInOrder(leat);
            try (StoreReader reader = ledger.reader()) {
                Tape tape = Tape.of(reader, "jet-1");
                List<Input> inputs = tape.inputs();
                assertThat(tape.readings(Channel.INLET, told - 300_000, Long.MAX_VALUE))
                        .as("what came in the last moments")
                        .isNotEmpty();
                assertThat(reader.snapshots("jet-1").get(0).seq()).isEqualTo(inputs.size());
                assertThat(reader.runs(1).get(0).endedMicros()).isNotEmpty();
            }
        }
    }

    @Tag(Gear.THOROUGH)
    @Test
    void told_to_end_it_does_so_though_device_and_broker_hang_in_the_middle_of_it()
            throws Exception {
        try (ServerSocket device = mute();
                ServerSocket broker = mute()) {
            Files.writeString(
                    folder.resolve("site.yaml"),
                    QuickSite.yaml(device.getLocalPort(), "")
                            .replace("missing: 30 s", "missing: 2 s")
                            .replace(
                                    "machines:",
                                    "  hall: { mqtt: { url: \"tcp://127.0.0.1:%d\", client_id: leat } }\nmachines:"
                                            .formatted(broker.getLocalPort()))
                            .replace(
                                    "tell:\n",
                                    "tell:\n  hall: { by: { mqtt: { connection: hall, topic_prefix: leat } } }\n"));
            try (LeatProcess leat = LeatProcess.watching(folder)) {
                awaitStanding(Rule.SIGNAL_MISSING, AlarmState.UNACKNOWLEDGED);

                Duration took = leat.terminate();

                System.out.printf("SIGTERM to the end, all peers mute: %d ms%n", took.toMillis());
                assertThat(took).isLessThan(LONGEST_END);
                assertEndedInOrder(leat);
                assertThat(ledger.due("hall")).isPositive();
            }
        }
    }

    @Test
    void a_second_one_on_the_same_store_is_refused_and_harms_nothing() throws Exception {
        try (LeatProcess first = LeatProcess.watching(folder)) {
            LeatProcess second = LeatProcess.done(folder, "run", "site.yaml");

            assertThat(second.exitCode()).isEqualTo(1);
            assertThat(second.log())
                    .contains("another leat is running on this store (process " + first.pid() + ")")
                    .doesNotContain("Exception", "\tat ");
            long before = seq();
            await().atMost(SOON).until(() -> seq() > before + 50);
            first.terminate();
        }
        try (StoreReader reader = ledger.reader()) {
            assertThat(reader.runs(9)).hasSize(1);
        }
    }

    private static void assertEndedInOrder(LeatProcess leat) {
        assertThat(leat.log()).contains("ended in order").doesNotContain("Exception");
        // 128 + SIGTERM: how a JVM says that it did what it was told
        assertThat(leat.exitCode()).isIn(0, 143);
    }

    /** Parity, gaps, and a database without a fault. */
    private void assertSound(int restarts) {
        assertThat(ledger.integrity()).containsExactly("ok");
        Parity.assertHolds(folder.resolve("data/leat.db"));
        try (StoreReader reader = ledger.reader()) {
            Tape tape = Tape.of(reader, "jet-1");
            assertThat(tape.assertEachRestartIsAGap(ledger.runs(), WIRED)).isEqualTo(restarts);
        }
    }

    private LeatProcess acknowledge(String alarm) throws Exception {
        return LeatProcess.done(folder, "ack", "--site", "site.yaml", "--by", "Kim", alarm);
    }

    private static int timesSaid(LeatProcess leat, String words) {
        return leat.log().toLowerCase(Locale.ROOT).split(words, -1).length - 1;
    }

    private List<StoredAlarm> standing() {
        try (StoreReader reader = ledger.reader()) {
            return reader.standingAlarms();
        }
    }

    private Optional<StoredAlarm> standing(Rule rule) {
        return standing().stream().filter(a -> a.change().finding().rule() == rule).findFirst();
    }

    private Optional<AlarmState> state(Rule rule) {
        return standing(rule).map(alarm -> alarm.change().to());
    }

    private StoredAlarm awaitStanding(Rule rule, AlarmState state) {
        await().atMost(SOON).ignoreExceptions().until(() -> state(rule).equals(Optional.of(state)));
        return standing(rule).orElseThrow();
    }

    private void awaitAllDelivered() {
        await().atMost(SOON).until(() -> ledger.due("log") == 0);
    }

    /** Waits until so many seconds of readings are committed that came after the last start. */
    private void awaitSecondsSinceRestart(int seconds) {
        await().atMost(SOON).until(() -> committedSinceRestart() >= 20L * seconds);
    }

    private long committedSinceRestart() {
        try (StoreReader reader = ledger.reader()) {
            long started = reader.runs(1).get(0).startedMicros();
            return Tape.of(reader, "jet-1").readings(Channel.INLET, started, Long.MAX_VALUE).size();
        }
    }

    private long seq() {
        try (StoreReader reader = ledger.reader()) {
            return reader.lastSeq("jet-1");
        }
    }

    private static long nowMicros() {
        return System.currentTimeMillis() * 1_000;
    }

    /** Takes connections and never says a word. */
    private static ServerSocket mute() throws IOException {
        return new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    }

    private void writeSite(String machineLimits) throws IOException {
        Files.writeString(
                folder.resolve("site.yaml"), QuickSite.yaml(cabinet.port(), machineLimits));
    }
}
