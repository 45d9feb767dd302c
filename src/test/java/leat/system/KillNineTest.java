package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import leat.interop.Mosquitto;
import leat.rule.Grade;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Reading;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import leat.store.Run;
import leat.store.StoreException;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * kill -9 of the whole daemon, twenty times at random moments, while eight machines fall from one
 * fault into another and a subscriber that we did not write listens. Whatever was committed is
 * there in the end, whatever was said is stored, and every gap is said to be one.
 */
@Timeout(400)
class KillNineTest {

    private static final int ROUNDS = 20;

    /** One kill in so many comes while leat still starts. */
    private static final int EARLY = 4;

    private static final int LONGEST_START_MILLIS = 2_000;
    private static final int LONGEST_WORK_MILLIS = 4_000;
    private static final Duration QUIET = Duration.ofSeconds(8);
    private static final Duration LONGEST_UNSAID_GAP = Duration.ofSeconds(3);

    /** What happens to a chattering alarm and is told to nobody. */
    private static final Set<String> SILENT = Set.of("repeated", "settled");

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir Path folder;

    private final long seed = Long.getLong("leat.seed", System.nanoTime() % 1_000_000);
    private final Random random = new Random(seed);
    private final Witness witness = new Witness();
    private final List<Long> killedMicros = new ArrayList<>();
    private final List<Long> instructions = new ArrayList<>();

    private Path database;
    private Ledger ledger;

    @Test
    void nothing_committed_is_lost_and_nothing_is_told_that_is_not_stored() throws Exception {
        System.out.printf("kill -9: seed %d (-Dleat.seed=%d repeats the moments)%n", seed, seed);
        database = folder.resolve("data/leat.db");
        ledger = new Ledger(database);
        try (Mosquitto broker = new Mosquitto(folder)) {
            broker.start();
            Mosquitto.Heard events = broker.listen("leat/boatyard/event");
            try (Load load = Load.start(broker.url())) {
                Files.writeString(folder.resolve("site.yaml"), load.siteYaml());
                for (int round = 1; round <= ROUNDS; round++) {
                    runAndKill();
                }
                load.freeze();
                runUntilQuietAndEnd();
            }
            assertEverythingSeenIsThere();
            assertEveryAlarmIsOwed();
            assertEverythingOwedWasHeard(events);
            assertLastStatesStand(broker);
        }
        assertGapsAreSaid();
        assertInstructionsWereTakenOnce();
        assertThat(ledger.integrity()).containsExactly("ok");
        assertParity();
    }

    private void runAndKill() throws Exception {
        boolean early = random.nextInt(EARLY) == 0;
        int millis = random.nextInt(early ? LONGEST_START_MILLIS : LONGEST_WORK_MILLIS);
        try (LeatProcess leat = early ? LeatProcess.run(folder) : LeatProcess.watching(folder)) {
            leat.letRun(Duration.ofMillis(millis));
            lookAndLeaveInstruction();
            leat.kill();
            killedMicros.add(nowMicros());
            assertThat(leat.log()).doesNotContain("Exception", "a step failed");
        }
    }

    /** What can be read now was committed, so it must be there for ever. */
    private void lookAndLeaveInstruction() {
        try (StoreReader reader = ledger.reader();
                InstructionBox box = InstructionBox.open(database)) {
            List<StoredAlarm> alarms = reader.alarms(1);
            if (!alarms.isEmpty()) {
                String alarm = alarms.get(0).change().alarmId();
                instructions.add(
                        box.leave(
                                alarms.get(0).machine(),
                                new Instruction.Acknowledge(nowMicros(), "Kim", alarm)));
            }
            witness.look(reader);
        } catch (StoreException e) {
            assertThat(witness.hasSeenNothing()).as("no store any more: " + e).isTrue();
        }
    }

    private void runUntilQuietAndEnd() throws Exception {
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            long[] before = {-1};
            await().atMost(Duration.ofSeconds(60))
                    .during(QUIET)
                    .pollInterval(Duration.ofMillis(500))
                    .until(
                            () -> {
                                long rows = ledger.owed("hall").size();
                                boolean same = rows == before[0];
                                before[0] = rows;
                                return same && ledger.due("hall") + ledger.due("log") == 0;
                            });
            leat.terminate();
        }
    }

    private void assertEverythingSeenIsThere() {
        try (StoreReader reader = ledger.reader()) {
            assertThat(reader.machines()).hasSize(8);
            witness.assertAllIsThere(reader);
            long samples =
                    machines().stream()
                            .flatMap(machine -> Tape.of(reader, machine).inputs().stream())
                            .filter(Reading.class::isInstance)
                            .count();
            assertThat(reader.summary().samples()).isEqualTo(samples);
            System.out.printf(
                    "kill -9: %d inputs seen before a kill, %d readings in the end%n",
                    witness.count(), samples);
        }
    }

    /**
     * Every change of an alarm that is told at all is owed to whom it concerns, once, and nothing
     * else is. A channel that falls silent at every kill soon chatters: repeats only count.
     */
    private void assertEveryAlarmIsOwed() {
        for (String machine : machines()) {
            List<Ledger.Event> events =
                    ledger.events(machine).stream()
                            .filter(e -> !SILENT.contains(e.event()))
                            .toList();
            assertThat(events).as(machine).isNotEmpty();
            assertThat(owedIds("hall", machine)).isEqualTo(ids(events));
            Set<String> told = new HashSet<>();
            List<Ledger.Event> forLog =
                    events.stream()
                            .filter(
                                    e ->
                                            told.contains(e.alarmId())
                                                    || e.grade().isAtLeast(Grade.WARNING)
                                                            && told.add(e.alarmId()))
                            .toList();
            assertThat(owedIds("log", machine)).isEqualTo(ids(forLog));
        }
        assertThat(ledger.due("hall") + ledger.due("log")).isZero();
    }

    private static List<String> ids(List<Ledger.Event> events) {
        return events.stream().map(Ledger.Event::id).toList();
    }

    private List<String> owedIds(String route, String machine) {
        return ledger.owed(route).stream()
                .map(Ledger.Owed::id)
                .filter(id -> id.startsWith(machine + "."))
                .toList();
    }

    private void assertEverythingOwedWasHeard(Mosquitto.Heard events) {
        List<String> heard = events.lines().stream().map(KillNineTest::messageId).toList();

        List<String> owed = ledger.owed("hall").stream().map(Ledger.Owed::id).toList();
        assertThat(heard.stream().distinct().toList()).isEqualTo(owed);
        assertThat(owed).as("load").hasSizeGreaterThan(5 * ROUNDS);
        System.out.printf(
                "kill -9: %d messages owed, %d heard, %d of them again%n",
                owed.size(), heard.size(), heard.size() - owed.size());
    }

    private void assertLastStatesStand(Mosquitto broker) throws Exception {
        Map<String, String> last = new LinkedHashMap<>();
        ledger.owed("hall").forEach(owed -> last.put("leat/boatyard/" + owed.topic(), owed.id()));

        Mosquitto.Heard later = broker.listen("leat/boatyard/+/alarm/#");

        await().until(() -> later.lines().size() >= last.size());
        Map<String, String> stands = new LinkedHashMap<>();
        later.lines().forEach(line -> stands.put(line.split(" ", 3)[1], messageId(line)));
        assertThat(stands).containsExactlyInAnyOrderEntriesOf(last);
        assertThat(later.lines()).allMatch(line -> line.startsWith("1 "));
    }

    private static String messageId(String line) {
        try {
            return JSON.readTree(line.split(" ", 3)[2]).path("id").asText();
        } catch (JsonProcessingException e) {
            throw new AssertionError(line, e);
        }
    }

    private void assertGapsAreSaid() {
        List<Run> runs = ledger.runs();
        int restarts = 0;
        try (StoreReader reader = ledger.reader()) {
            for (String machine : machines()) {
                Tape tape = Tape.of(reader, machine);
                restarts += tape.assertEachRestartIsAGap(runs, EnumSet.allOf(Channel.class));
                for (Channel channel : Channel.values()) {
                    tape.assertNoUnsaidGap(channel, LONGEST_UNSAID_GAP);
                    killedMicros.forEach(killed -> assertNothingInvented(tape, channel, killed));
                }
            }
        }
        System.out.printf("kill -9: %d runs, %d gaps of a machine said%n", runs.size(), restarts);
        assertThat(restarts).isGreaterThan(8 * ROUNDS / 3);
        assertThat(runs.get(runs.size() - 1).endedMicros()).isNotEmpty();
    }

    private void assertNothingInvented(Tape tape, Channel channel, long killed) {
        long again =
                ledger.runs().stream()
                        .mapToLong(Run::startedMicros)
                        .filter(started -> started > killed)
                        .min()
                        .orElseThrow();
        assertThat(tape.readings(channel, killed, again)).isEmpty();
    }

    private void assertInstructionsWereTakenOnce() {
        try (StoreReader reader = ledger.reader();
                InstructionBox box = InstructionBox.open(database)) {
            long taken =
                    machines().stream()
                            .flatMap(machine -> Tape.of(reader, machine).inputs().stream())
                            .filter(Instruction.class::isInstance)
                            .count();
            assertThat(instructions).isNotEmpty();
            assertThat(taken).isEqualTo(instructions.size());
            assertThat(instructions)
                    .allMatch(n -> box.fate(n).state() != InstructionFate.State.WAITING);
        }
    }

    private void assertParity() {
        long begun = System.nanoTime();
        long outcomes = Parity.assertHolds(database);
        System.out.printf(
                "kill -9: %d outcomes came of a replay alike, in %d ms%n",
                outcomes, (System.nanoTime() - begun) / 1_000_000);
        assertThat(outcomes).isPositive();
    }

    private List<String> machines() {
        try (StoreReader reader = ledger.reader()) {
            return reader.machines();
        }
    }

    private static long nowMicros() {
        return ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
    }
}
