package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import leat.Gear;
import leat.interop.Peer;
import leat.signal.Channel;
import leat.store.StoreReader;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The daemon with its store on a disk that is full for a while: it says so and stays, tells people
 * from memory, loses nothing that it has, killed or not, and goes on.
 */
@Timeout(180)
class FullDiskTest {

    private static final Duration SOON = Duration.ofSeconds(40);
    private static final Duration SOME_SECONDS = Duration.ofSeconds(Gear.of(3, 4));
    private static final Duration LONGEST_END = Duration.ofSeconds(4);

    private static final Duration LONGEST_UNSAID_GAP = Duration.ofSeconds(3);
    private static final String FULL = "the disk is full. Make room";
    private static final String NOT_STORED = "Not stored yet";
    private static final String WRITES_AGAIN = "store: writes again";

    private static final EnumSet<Channel> WIRED =
            EnumSet.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING);

    @TempDir Path folder;

    private Cabinet cabinet;
    private Ledger ledger;

    @BeforeEach
    void start_the_field_device() throws IOException {
        cabinet = new Cabinet();
        ledger = new Ledger(folder.resolve("data/leat.db"));
        Files.writeString(folder.resolve("site.yaml"), QuickSite.yaml(cabinet.port(), ""));
    }

    @AfterEach
    void close_the_field_device() {
        cabinet.close();
    }

    @Test
    void it_says_so_stays_tells_people_and_goes_on_when_there_is_room() throws Exception {
        try (TinyDisk disk = TinyDisk.mount(folder.resolve("data"))) {
            try (LeatProcess leat = watchingALowInlet()) {
                disk.fill();
                awaitSaid(leat, FULL);

                cabinet.show(40, 102);
                awaitSaid(leat, NOT_STORED);
                assertThat(events()).as("nothing can be written").containsExactly("raised");
                int said = timesSaid(leat, "jet-1: inlet");
                disk.makeRoom();

                awaitSaid(leat, WRITES_AGAIN);
                awaitDelivered("raised", "returned");
                assertThat(timesSaid(leat, "jet-1: inlet")).as("told once").isEqualTo(said);
                assertEndsInOrder(leat);
            }
            assertSound(0);
        }
    }

    @Tag(Gear.THOROUGH)
    @Test
    void killed_meanwhile_it_does_not_start_until_there_is_room_and_has_lost_nothing()
            throws Exception {
        try (TinyDisk disk = TinyDisk.mount(folder.resolve("data"))) {
            try (LeatProcess leat = watchingALowInlet()) {
                disk.fill();
                awaitSaid(leat, FULL);
                cabinet.show(40, 102);
                leat.letRun(SOME_SECONDS);
                leat.kill();
            }

            assertRefused(LeatProcess.done(folder, "run", "site.yaml"));
            assertRefused(LeatProcess.done(folder, "ack", "--by", "Kim", "1"));
            LeatProcess alarms = LeatProcess.done(folder, "alarms");
            assertThat(alarms.exitCode()).as(alarms.log()).isZero();
            assertThat(alarms.log()).contains("inlet");
            disk.makeRoom();

            try (LeatProcess again = LeatProcess.watching(folder)) {
                awaitDelivered("raised", "returned");
                assertEndsInOrder(again);
            }
            assertSound(1);
        }
    }

    @Tag(Gear.THOROUGH)
    @Test
    void told_to_end_meanwhile_it_ends_in_time_and_says_what_is_lost() throws Exception {
        try (TinyDisk disk = TinyDisk.mount(folder.resolve("data"))) {
            try (LeatProcess leat = watchingALowInlet()) {
                disk.fill();
                awaitSaid(leat, FULL);

                Duration took = leat.terminate();

                assertThat(took).isLessThan(LONGEST_END);
                assertThat(leat.log())
                        .containsPattern("[0-9]+ inputs are lost with the end")
                        .doesNotContain("ended in order", "Exception", "\tat ");
            }
            disk.makeRoom();
            cabinet.show(40, 102);
            try (LeatProcess again = LeatProcess.watching(folder)) {
                awaitDelivered("raised", "returned");
                assertEndsInOrder(again);
            }
            assertSound(1);
        }
    }

    /** A quota, as far as leat is concerned; takes no root. */
    @Tag(Gear.THOROUGH)
    @Test
    void a_file_that_may_not_grow_is_trouble_that_passes_too() throws Exception {
        String prlimit = Peer.require("prlimit").toString();
        try (LeatProcess leat = watchingALowInlet()) {
            long size = Files.size(folder.resolve("data/leat.db-wal"));
            limitFiles(prlimit, leat, Long.toString(size));
            awaitSaid(leat, "store: ");

            cabinet.show(40, 102);
            awaitSaid(leat, NOT_STORED);
            assertThat(events()).as("nothing can be written").containsExactly("raised");
            limitFiles(prlimit, leat, "unlimited");

            awaitSaid(leat, WRITES_AGAIN);
            awaitDelivered("raised", "returned");
            assertEndsInOrder(leat);
        }
        assertSound(0);
    }

    /** The limit that can be lifted again. */
    private static void limitFiles(String prlimit, LeatProcess leat, String bytes)
            throws Exception {
        Process process =
                new ProcessBuilder(
                                prlimit,
                                "--pid",
                                Long.toString(leat.pid()),
                                "--fsize=" + bytes + ":")
                        .inheritIO()
                        .start();
        assertThat(process.waitFor()).isZero();
    }

    private LeatProcess watchingALowInlet() throws Exception {
        cabinet.show(12, 102);
        LeatProcess leat = LeatProcess.watching(folder);
        awaitDelivered("raised");
        return leat;
    }

    private static void assertRefused(LeatProcess leat) {
        assertThat(leat.exitCode()).as(leat.log()).isEqualTo(1);
        assertThat(leat.log()).contains(FULL).doesNotContain("Exception", "\tat ");
    }

    private static void assertEndsInOrder(LeatProcess leat) throws InterruptedException {
        leat.terminate();
        assertThat(leat.log()).contains("ended in order").doesNotContain("Exception", "\tat ");
    }

    /** Everything was read without an unsaid gap, replays alike, and the file is whole. */
    private void assertSound(int restarts) {
        assertThat(ledger.integrity()).containsExactly("ok");
        Parity.assertHolds(folder.resolve("data/leat.db"));
        try (StoreReader reader = ledger.reader()) {
            Tape tape = Tape.of(reader, "jet-1");
            assertThat(tape.assertEachRestartIsAGap(ledger.runs(), WIRED)).isEqualTo(restarts);
            WIRED.forEach(channel -> tape.assertNoUnsaidGap(channel, LONGEST_UNSAID_GAP));
        }
    }

    private List<String> events() {
        return ledger.events("jet-1").stream().map(Ledger.Event::event).toList();
    }

    private void awaitDelivered(String... events) {
        await().atMost(SOON)
                .ignoreExceptions()
                .until(() -> events().equals(List.of(events)) && ledger.due("log") == 0);
    }

    private static void awaitSaid(LeatProcess leat, String words) {
        await().atMost(SOON).until(() -> leat.log().contains(words));
    }

    private static int timesSaid(LeatProcess leat, String words) {
        String said = leat.log().toLowerCase(Locale.ROOT);
        return said.split(Pattern.quote(words.toLowerCase(Locale.ROOT)), -1).length - 1;
    }
}
