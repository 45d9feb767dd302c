package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.Supplier;
import leat.Gear;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.interop.Mosquitto;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.store.StoreReader;
import leat.watch.Outcome;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The whole program on a computer whose clock is wrong, is set while it runs, or was set while it
 * was down, and at sensors whose clock is wrong. A booster that becomes weak is called all the
 * same.
 */
@Tag(Gear.THOROUGH)
@Timeout(180)
class WrongClockTest {

    private static final Duration SOON = Duration.ofSeconds(20);

    /** From the start of a weak booster to its alarm: 4 s of a level, 1 s to arm, 1 s of delay. */
    private static final long LONGEST_UNTOLD_MICROS = 8_000_000;

    /** So long the booster stands still before a start, for its base to be seen. */
    private static final int REST_SECONDS = 4;

    /** Old samples are looked for every 10 s. */
    private static final int SECONDS_TO_A_LOOK = 12;

    private static final int MOST_BEGINNINGS = 20;
    private static final Duration FORTY_DAYS = Duration.ofDays(40);

    @TempDir Path folder;

    private FakeTime time;
    private Ledger ledger;
    private Cabinet cabinet;

    @BeforeEach
    void start_the_field_device() throws IOException {
        time = FakeTime.require(folder);
        ledger = new Ledger(folder.resolve("data/leat.db"));
        cabinet = new Cabinet();
        writeSite(site());
    }

    @AfterEach
    void close_the_field_device() {
        cabinet.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"-PT2M", "-P1D"})
    void started_again_behind_its_own_past_it_calls_the_next_weak_run(Duration ahead)
            throws Exception {
        runSomeSeconds();
        time.set(ahead);

        try (LeatProcess leat = watching()) {
            assertCallsAWeakRun();
            assertEndsInOrder(leat);
        }
        assertNothingIsMissing();
    }

    @Test
    void after_a_run_in_2100_it_calls_the_next_weak_run_at_the_right_time() throws Exception {
        time.setTo(Instant.parse("2100-01-01T00:00:00Z"));
        runSomeSeconds();
        time.set(Duration.ZERO);

        try (LeatProcess leat = watching()) {
            assertCallsAWeakRun();
            assertEndsInOrder(leat);
        }
        assertNothingIsMissing();
    }

    @Test
    void set_back_and_forward_while_it_runs_it_calls_each_weak_run() throws Exception {
        try (LeatProcess leat = watching()) {
            time.set(Duration.ofHours(-1));
            assertCallsAWeakRun();
            cabinet.show(40, 102);
            awaitChange(0, is(AlarmEvent.RETURNED, Rule.RATIO));
            time.set(Duration.ofDays(1));
            assertCallsAWeakRun();
            assertEndsInOrder(leat);
        }
        assertNothingIsMissing();
    }

    /** As after the battery of the clock has gone, and then the year is typed wrong. */
    @Test
    void nothing_is_deleted_because_a_clock_was_in_1970_or_is_forty_days_ahead() throws Exception {
        writeSite(site().replace("folder: ./data", "folder: ./data, keep_samples: 1 h"));
        time.setTo(Instant.EPOCH.plusSeconds(100));
        runSomeSeconds();
        time.set(Duration.ZERO);
        runSomeSeconds(SECONDS_TO_A_LOOK);
        time.set(FORTY_DAYS);

        runSomeSeconds(SECONDS_TO_A_LOOK);

        List<Input> inputs = inputs(0);
        assertNothingIsMissing();
        assertThat(inputs.get(0).atMicros()).isLessThan(1_000_000_000);
        assertThat(inputs).filteredOn(Reading.class::isInstance).hasSizeGreaterThan(500);
    }

    @ParameterizedTest
    @ValueSource(longs = {3, 3_600})
    void a_sensor_that_is_an_hour_ahead_for_some_seconds_or_for_good_hides_no_weak_run(long seconds)
            throws Exception {
        try (Mosquitto broker = new Mosquitto(folder)) {
            broker.start();
            writeSite(siteByMqtt(broker));
            ClockedSensors sensors = new ClockedSensors();
            sensors.beAhead(() -> Duration.ofHours(1));
            broker.startSensor("yard/jet-1", sensors);

            try (LeatProcess leat = watchingFromItsFirstSecondOn()) {
                sensors.beAhead(aheadFor(seconds));
                sensors.rest(40);
                awaitSecondsAfter(0, 4);
                assertCallsAWeakRun(() -> sensors.rest(40), () -> sensors.show(40, 56));
                if (seconds > SOON.toSeconds()) {
                    assertTellsTheHour(leat);
                }
                assertEndsInOrder(leat);
            }
        }
        assertNothingIsMissing();
    }

    /** Begins anew until a reading has come before leat's first second was over. */
    private LeatProcess watchingFromItsFirstSecondOn() throws Exception {
        for (int i = 0; i < MOST_BEGINNINGS; i++) {
            LeatProcess leat = watching();
            awaitSecondsAfter(0, 1);
            if (inputs(0).stream().takeWhile(input -> !(input instanceof Tick)).count() > 0) {
                return leat;
            }
            leat.kill();
            for (String suffix : List.of("", "-wal", "-shm")) {
                Files.delete(folder.resolve("data/leat.db" + suffix));
            }
        }
        throw new AssertionError("no reading came in any first second");
    }

    private static Supplier<Duration> aheadFor(long seconds) {
        long end = System.nanoTime() + Duration.ofSeconds(seconds).toNanos();
        return () -> System.nanoTime() < end ? Duration.ofHours(1) : Duration.ZERO;
    }

    private void assertTellsTheHour(LeatProcess leat) {
        AlarmChange told = awaitChange(0, is(AlarmEvent.RAISED, Rule.SIGNAL_CLOCK));
        assertThat(told.finding().grade()).isEqualTo(Grade.ADVISORY);
        await().atMost(SOON)
                .until(
                        () ->
                                leat.log()
                                        .contains(
                                                "Measured: boosted sensor and computer differ by 60 min."));
    }

    private String site() {
        return QuickSite.patient(QuickSite.yaml(cabinet.port(), ""));
    }

    private static String siteByMqtt(Mosquitto broker) {
        return """
        site: { name: Boatyard }
        store: { folder: ./data }
        connections:
          hall: { mqtt: { url: "%s", client_id: leat } }
        machines:
          jet-1:
            channels:
        %s%stell:
          log: { by: { log: { } } }
        """
                .formatted(
                        broker.url(),
                        ClockedSensors.CHANNELS.formatted("yard/jet-1"),
                        QuickSite.patient(QuickSite.LIMITS));
    }

    private void writeSite(String yaml) throws IOException {
        Files.writeString(folder.resolve("site.yaml"), yaml);
    }

    private LeatProcess watching() throws IOException {
        return LeatProcess.watching(folder, time.environment());
    }

    private void runSomeSeconds() throws Exception {
        runSomeSeconds(3);
    }

    private void runSomeSeconds(int seconds) throws Exception {
        long before = seq();
        try (LeatProcess leat = watching()) {
            awaitSecondsAfter(before, seconds);
            assertEndsInOrder(leat);
        }
    }

    private static void assertEndsInOrder(LeatProcess leat) throws InterruptedException {
        leat.terminate();
        assertThat(leat.log()).contains("ended in order").doesNotContain("Exception", "\tat ");
    }

    private void assertCallsAWeakRun() {
        assertCallsAWeakRun(() -> cabinet.rest(40), () -> cabinet.show(40, 56));
    }

    /**
     * Within seconds, with its start found, and what it is called by is owed to nobody any more.
     */
    private void assertCallsAWeakRun(Runnable rest, Runnable weak) {
        rest.run();
        long resting = seq();
        awaitSecondsAfter(resting, REST_SECONDS);
        long before = seq();
        weak.run();

        AlarmChange told = awaitChange(before, is(AlarmEvent.RAISED, Rule.RATIO));
        assertThat(told.atMicros() - start(before).atMicros()).isBetween(0L, LONGEST_UNTOLD_MICROS);
        await().atMost(SOON).until(() -> isDelivered(told));
        assertThat(inputs(before))
                .filteredOn(Reading.class::isInstance)
                .isNotEmpty()
                .allMatch(input -> ((Reading) input).quality() == Quality.GOOD);
    }

    private static Predicate<AlarmChange> is(AlarmEvent event, Rule rule) {
        return change -> change.event() == event && change.finding().rule() == rule;
    }

    private boolean isDelivered(AlarmChange change) {
        String id = change.alarmId() + "/" + change.revision();
        return ledger.owed("log").stream().anyMatch(o -> o.id().equals(id) && o.delivered());
    }

    private PhaseChange start(long afterSeq) {
        return outcomes(afterSeq).stream()
                .filter(Outcome.PhaseChanged.class::isInstance)
                .map(outcome -> ((Outcome.PhaseChanged) outcome).change())
                .filter(change -> change.to() == Phase.RISE)
                .findFirst()
                .orElseThrow();
    }

    private AlarmChange awaitChange(long afterSeq, Predicate<AlarmChange> which) {
        await().atMost(SOON).until(() -> change(afterSeq, which).isPresent());
        return change(afterSeq, which).orElseThrow();
    }

    private Optional<AlarmChange> change(long afterSeq, Predicate<AlarmChange> which) {
        return outcomes(afterSeq).stream()
                .filter(Outcome.AlarmChanged.class::isInstance)
                .map(outcome -> ((Outcome.AlarmChanged) outcome).change())
                .filter(which)
                .findFirst();
    }

    private void awaitSecondsAfter(long seq, int seconds) {
        await().atMost(SOON.plusSeconds(seconds))
                .ignoreExceptions()
                .until(
                        () ->
                                inputs(seq).stream().filter(Tick.class::isInstance).count()
                                        >= seconds);
    }

    /** Every input that was ever taken is there, from the first one on. */
    private void assertNothingIsMissing() {
        try (StoreReader reader = ledger.reader()) {
            assertThat(Tape.of(reader, "jet-1").inputs()).isNotEmpty();
        }
        assertThat(ledger.integrity()).containsExactly("ok");
    }

    private long seq() {
        if (!Files.exists(folder.resolve("data/leat.db"))) {
            return 0;
        }
        try (StoreReader reader = ledger.reader()) {
            return reader.lastSeq("jet-1");
        }
    }

    private List<Input> inputs(long afterSeq) {
        List<Input> inputs = new ArrayList<>();
        try (StoreReader reader = ledger.reader()) {
            reader.inputs("jet-1", afterSeq, Long.MAX_VALUE, (seq, input) -> inputs.add(input));
        }
        return inputs;
    }

    private List<Outcome> outcomes(long afterSeq) {
        List<Outcome> outcomes = new ArrayList<>();
        try (StoreReader reader = ledger.reader()) {
            reader.outcomes(
                    "jet-1", afterSeq, Long.MAX_VALUE, said -> outcomes.add(said.outcome()));
        }
        return outcomes;
    }
}
