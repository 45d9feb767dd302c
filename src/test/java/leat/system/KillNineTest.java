package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.Callable;
import leat.Gear;
import leat.interop.Mosquitto;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import leat.store.Run;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * kill -9 of the whole daemon, again and again, at moments that are chosen to fall between the
 * finding of an alarm and its delivery, while four machines fall from one fault into another, a
 * subscriber that we did not write listens at the broker and a receiver of webhooks at the other
 * end. Whatever was committed is there in the end, whatever was said is stored, what is marked as
 * delivered was heard, the rest waits, and every gap is said to be one.
 *
 * <p>{@code -Dleat.kills=200} kills so many times instead; {@code target/kill-nine.csv} then says
 * for each kill where it fell.
 */
@Timeout(3_600)
class KillNineTest {

    /** What of each of its machines is wired. */
    private static final Set<Channel> WIRED = EnumSet.complementOf(EnumSet.of(Channel.CUTTING));

    private static final int ROUNDS = Integer.getInteger("leat.kills", Gear.of(3, 30));
    private static final int MACHINES = 4;

    /** With fewer kills chance alone may let few of them fall while a message is on its way. */
    private static final int ENOUGH_FOR_A_SHARE = 20;

    /** One kill in so many comes while leat still starts. */
    private static final int EARLY = 8;

    /** It works for so long before the event is waited for that the moment is chosen by. */
    private static final Duration WARM_UP = Duration.ofMillis(500);

    private static final int WARM_UP_SPREAD_MILLIS = 1_500;

    /** In one round of so many the receiver of webhooks is away. */
    private static final int AWAY = 5;

    /**
     * In one round of so many leat finds that its computer's clock was set, where that can be done.
     */
    private static final int CLOCK_SET = 2;

    private static final Duration LONGEST_WAIT_FOR_NEWS = Duration.ofSeconds(20);
    private static final Duration GLANCE = Duration.ofMillis(1);
    private static final Duration QUIET = Duration.ofSeconds(5);
    private static final Duration LONGEST_UNSAID_GAP = Duration.ofSeconds(3);
    private static final long SECOND_MICROS = 1_000_000;

    private static final List<Kill.Aim> LATE =
            EnumSet.complementOf(EnumSet.of(Kill.Aim.START)).stream().toList();

    @TempDir Path folder;

    private final long seed = Gear.seed();
    private final Random random = new Random(seed);
    private final Witness witness = new Witness();
    private final Tally tally = new Tally();
    private final List<Long> instructions = new ArrayList<>();

    private Path database;
    private Optional<FakeTime> time = Optional.empty();
    private Lives lives;
    private Ledger ledger;
    private Receivers receivers;
    private Inquest inquest;

    @Test
    void nothing_committed_is_lost_and_nothing_is_told_that_is_not_stored() throws Exception {
        System.out.printf("kill -9: seed %d (-Dleat.seed=%d repeats the choices)%n", seed, seed);
        database = folder.resolve("data/leat.db");
        ledger = new Ledger(database);
        lives = new Lives(ledger);
        if (Gear.isThorough()) {
            time = FakeTime.find(folder);
        }
        try (Receivers who = new Receivers(folder, ledger)) {
            receivers = who;
            inquest = new Inquest(database, ledger, who);
            try (Load load = Load.start(who.broker().url())) {
                Path secret = Files.writeString(folder.resolve("secret"), "an invented secret\n");
                Files.writeString(
                        folder.resolve("site.yaml"), load.siteYaml(who.webhook(), secret));
                killAgainAndAgain();
                load.freeze();
                who.sendDeskAway(false);
                runUntilQuietAndEnd();
            }
            who.settle();
            inquest.assertNothingIsAmiss("in the end");
            assertEverythingOwedWasHeard();
            assertLastStatesStand(who.broker());
        }
        assertEverythingSeenIsThere();
        assertGapsAreSaid();
        assertInstructionsWereTakenOnce();
        assertThat(ledger.integrity()).containsExactly("ok");
        System.out.println("kill -9: integrity ok");
        assertParity();
        if (ROUNDS >= ENOUGH_FOR_A_SHARE) {
            assertThat(tally.inFlight()).as("the test's own aim").isGreaterThan(ROUNDS / 3);
        }
    }

    private void killAgainAndAgain() throws Exception {
        long begun = System.nanoTime();
        try {
            for (int round = 1; round <= ROUNDS; round++) {
                runAndKill(round);
                inquest.assertNothingIsAmiss("after kill " + round);
            }
        } finally {
            tally.write(Path.of("target/kill-nine.csv"));
            System.out.print(tally.table());
        }
        System.out.printf(
                "kill -9: %d s for %d kills; %d of %d committed seconds owed a message%n",
                (System.nanoTime() - begun) / 1_000_000_000,
                ROUNDS,
                ledger.tellingSeconds(),
                ledger.seconds());
    }

    private void runAndKill(int round) throws Exception {
        boolean early = round > 1 && random.nextInt(EARLY) == 0;
        Kill.Aim aim = early ? Kill.Aim.START : LATE.get(random.nextInt(LATE.size()));
        Duration after = after(aim);
        boolean deskAway = random.nextInt(AWAY) == 0;
        receivers.sendDeskAway(deskAway);
        setClock();
        try (LeatProcess leat =
                early
                        ? LeatProcess.run(folder, environment())
                        : LeatProcess.watching(folder, environment())) {
            long newest = 0;
            if (!early) {
                newest = awaitMoment(aim, leat);
            }
            leat.letRun(after);
            long atMicros = nowMicros();
            leat.kill();
            long deadMicros = nowMicros();
            assertThat(leat.log()).doesNotContain("Exception", "a step failed");
            tally.add(
                    inquest.examine(
                            round, aim, after, atMicros, deadMicros, deskAway, leat.isWatching()));
            lives.over(deadMicros);
            assertThat(inquest.newest()).isGreaterThanOrEqualTo(newest);
        }
    }

    private void setClock() throws IOException {
        if (time.isPresent() && random.nextInt(CLOCK_SET) == 0) {
            time.get().setAnyhow(random);
        }
    }

    private Map<String, String> environment() {
        return time.map(FakeTime::environment).orElse(Map.of());
    }

    /** By the clock of leat's computer, microseconds UTC. */
    private long nowMicros() {
        Instant now = Instant.now().plus(time.map(FakeTime::ahead).orElse(Duration.ZERO));
        return ChronoUnit.MICROS.between(Instant.EPOCH, now);
    }

    /**
     * Right after an event more happens than later: half of the kills come in the first quarter.
     */
    private Duration after(Kill.Aim aim) {
        double chance = random.nextDouble();
        double share = aim.isEvent() ? chance * chance : chance;
        return Duration.ofNanos((long) (share * aim.longest().toNanos()));
    }

    /**
     * @return number of the newest message that the store held shortly before
     */
    private long awaitMoment(Kill.Aim aim, LeatProcess leat) throws Exception {
        leat.letRun(WARM_UP.plusMillis(random.nextInt(WARM_UP_SPREAD_MILLIS)));
        lookAndLeaveInstruction();
        try (Ledger.Lookout lookout = ledger.lookOut()) {
            switch (aim) {
                case SECOND -> awaitWholeSecond(leat);
                case COMMIT -> awaitCommit(leat);
                case ROW -> awaitNews(lookout::newest);
                case WIRE -> awaitNews(receivers::wireSize);
                case DESK -> awaitNews(receivers::hooks);
                case ANY_TIME, START -> {
                    // its time is counted from here
                }
            }
            return lookout.newest();
        }
    }

    private void awaitWholeSecond(LeatProcess leat) throws InterruptedException {
        long left = SECOND_MICROS - nowMicros() % SECOND_MICROS;
        leat.letRun(Duration.of(left, ChronoUnit.MICROS));
    }

    /** Does not pause: a commit takes less than a millisecond. */
    private void awaitCommit(LeatProcess leat) throws Exception {
        Path wal = folder.resolve("data/leat.db-wal");
        awaitWholeSecond(leat);
        FileTime before = Files.getLastModifiedTime(wal);
        long begun = System.nanoTime();
        while (Files.getLastModifiedTime(wal).equals(before)) {
            assertThat(System.nanoTime() - begun).isLessThan(LONGEST_WAIT_FOR_NEWS.toNanos());
            Thread.onSpinWait();
        }
    }

    private static void awaitNews(Callable<? extends Number> what) throws Exception {
        long before = what.call().longValue();
        await().atMost(LONGEST_WAIT_FOR_NEWS)
                .pollDelay(Duration.ZERO)
                .pollInterval(GLANCE)
                .until(() -> what.call().longValue() > before);
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
                                new Instruction(nowMicros(), "Kim", new Order.Acknowledge(alarm))));
            }
            witness.look(reader);
        }
    }

    private void runUntilQuietAndEnd() throws Exception {
        try (LeatProcess leat = LeatProcess.watching(folder, environment())) {
            long[] before = {-1};
            await().atMost(Duration.ofSeconds(60))
                    .during(QUIET)
                    .pollInterval(Duration.ofMillis(500))
                    .until(
                            () -> {
                                List<Ledger.Owed> owed = ledger.owed();
                                boolean same = owed.size() == before[0];
                                before[0] = owed.size();
                                return same && owed.stream().noneMatch(Ledger.Owed::isDue);
                            });
            leat.terminate();
            lives.over(nowMicros());
        }
    }

    private void assertEverythingSeenIsThere() {
        try (StoreReader reader = ledger.reader()) {
            assertThat(reader.machines()).hasSize(MACHINES);
            witness.assertAllIsThere(reader);
            long samples =
                    reader.machines().stream()
                            .flatMap(machine -> Tape.of(reader, machine).inputs().stream())
                            .filter(Reading.class::isInstance)
                            .count();
            assertThat(reader.summary().samples()).isEqualTo(samples);
            System.out.printf(
                    "kill -9: %d inputs in the end, %d of them readings; %d were seen before a kill%n",
                    reader.machines().stream().mapToLong(reader::lastSeq).sum(),
                    samples,
                    witness.count());
        }
    }

    private void assertEverythingOwedWasHeard() {
        for (String route : Receivers.ROUTES) {
            List<String> told = receivers.told(route);
            List<String> owed =
                    ledger.owed(route).stream()
                            .filter(message -> !message.isFolded())
                            .map(Ledger.Owed::id)
                            .toList();
            System.out.printf(
                    "kill -9: %s: %d messages owed, %d told, %d of them again%n",
                    route, owed.size(), told.size(), told.size() - owed.size());
            Inquest.assertSame(route, told.stream().distinct().toList(), owed);
            int least = route.equals("hall") ? 5 : 2; // what falls silent together is one call
            assertThat(owed).as("load").hasSizeGreaterThan(least * ROUNDS);
        }
        assertThat(receivers.halfTold()).isEmpty();
    }

    private void assertLastStatesStand(Mosquitto broker) throws Exception {
        Map<String, String> last = new LinkedHashMap<>();
        ledger.owed("hall").forEach(owed -> last.put("leat/boatyard/" + owed.topic(), owed.id()));

        Mosquitto.Heard later = broker.listen("leat/boatyard/+/alarm/#");

        await().until(() -> later.lines().size() >= last.size());
        Map<String, String> stands = new LinkedHashMap<>();
        later.lines().forEach(line -> stands.put(line.split(" ", 3)[1], Wire.messageId(line)));
        assertThat(stands).containsExactlyInAnyOrderEntriesOf(last);
        assertThat(later.lines()).allMatch(line -> line.startsWith("1 "));
    }

    private void assertGapsAreSaid() {
        List<Run> runs = ledger.runs();
        int restarts = 0;
        long steps = 0;
        try (StoreReader reader = ledger.reader()) {
            for (String machine : reader.machines()) {
                Tape tape = Tape.of(reader, machine);
                restarts += lives.assertEachIsKnownForWhatItWas(tape, WIRED);
                steps += Lives.steps(tape);
                for (Channel channel : WIRED) {
                    tape.assertNoUnsaidGap(channel, LONGEST_UNSAID_GAP);
                }
            }
        }
        System.out.printf(
                "kill -9: %d runs, %d gaps of a machine said, %d times that the clock was set%n",
                runs.size(), restarts, steps);
        assertThat(restarts).isGreaterThan(MACHINES * ROUNDS / 3);
        assertThat(runs.get(runs.size() - 1).endedMicros()).isNotEmpty();
    }

    private void assertInstructionsWereTakenOnce() {
        try (StoreReader reader = ledger.reader();
                InstructionBox box = InstructionBox.open(database)) {
            long taken =
                    reader.machines().stream()
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
}
