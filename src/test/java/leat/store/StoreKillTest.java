package leat.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import leat.Gear;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

class StoreKillTest {

    /** Also with {@code -Dleat.kills=500}. */
    private static final int ROUNDS = Integer.getInteger("leat.kills", Gear.of(2, 20));

    @TempDir private Path folder;

    @Test
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void kill_9_at_any_moment_loses_no_committed_batch_and_leaves_none_half() throws Exception {
        Path file = folder.resolve("leat.db");
        long seed = 20260105;
        Random random = new Random(seed);
        long atLeast = 0;

        for (int round = 1; round <= ROUNDS; round++) {
            long reported = commitAndKill(file, 1 + random.nextInt(60));

            String which = "seed " + seed + ", round " + round;
            assertThat(reported).as(which).isGreaterThan(atLeast);
            assertWhole(file, which, reported);
            atLeast = reported;
        }
    }

    @Test
    @Timeout(value = 60)
    void a_leat_in_another_process_is_refused_while_the_first_runs() throws Exception {
        Path file = folder.resolve("leat.db");

        try (Store first = Store.open(file)) {
            Process second = child(file);
            String said =
                    new String(second.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);

            assertThat(second.waitFor(30, TimeUnit.SECONDS)).isTrue();
            assertThat(second.exitValue()).isNotZero();
            assertThat(said)
                    .contains("another leat is running on this store")
                    .contains("process " + ProcessHandle.current().pid());
            assertThat(first.checkpoint()).isTrue();
        }
    }

    @Test
    @Timeout(value = 60)
    void the_database_library_is_unpacked_beside_the_store_and_old_copies_are_swept()
            throws Exception {
        Path file = folder.resolve("leat.db");
        commitAndKill(file, 1);
        List<Path> leftBehind = unpacked();
        for (Path copy : leftBehind) {
            Files.setLastModifiedTime(copy, FileTime.from(Instant.now().minus(Duration.ofDays(2))));
        }

        commitAndKill(file, 1);

        assertThat(leftBehind).isNotEmpty();
        assertThat(unpacked()).isNotEmpty().doesNotContainAnyElementsOf(leftBehind);
    }

    private List<Path> unpacked() throws IOException {
        try (Stream<Path> copies = Files.list(folder.resolve("native"))) {
            return copies.toList();
        }
    }

    /** The last batch that the child said it had committed. */
    private static long commitAndKill(Path file, int batches) throws Exception {
        Process child = child(file);
        try (BufferedReader out = child.inputReader(StandardCharsets.UTF_8)) {
            String last = "";
            for (int i = 0; i < batches; i++) {
                String line = out.readLine();
                assertThat(line).as("the child ended by itself").isNotNull();
                last = line;
            }
            // Through the handle: the process itself would close its output, which is still wanted
            assertThat(child.toHandle().destroyForcibly()).isTrue();
            assertThat(child.waitFor(30, TimeUnit.SECONDS)).isTrue();
            for (String line = out.readLine(); line != null; line = out.readLine()) {
                last = line;
            }
            return Long.parseLong(last);
        } finally {
            child.destroyForcibly();
        }
    }

    private static Process child(Path file) throws IOException {
        String path =
                System.getProperty(
                        "surefire.test.class.path", System.getProperty("java.class.path"));
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Xshare:auto",
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-cp",
                        path,
                        CommitForever.class.getName(),
                        file.toString())
                .start();
    }

    private static void assertWhole(Path file, String which, long reported) {
        try (StoreReader reader = StoreReader.open(file);
                Db db = Db.reading(file)) {
            List<Long> kept = new ArrayList<>();
            reader.inputs("jet-1", 0, Long.MAX_VALUE, (seq, input) -> kept.add(seq));
            long inputs = kept.get(kept.size() - 1);
            long batches = inputs / CommitForever.INPUTS;

            // The batch in flight may have been committed just before its number was printed
            assertThat(batches).as(which).isBetween(reported, reported + 1);
            assertThat(inputs % CommitForever.INPUTS).as(which).isZero();
            assertThat(kept)
                    .as(which)
                    .isEqualTo(LongStream.rangeClosed(kept.get(0), inputs).boxed().toList());
            assertThat(kept.get(0) == 1 || kept.size() >= 2 * CommitForever.KEPT)
                    .as(which)
                    .isTrue();
            assertThat(reader.lastSeq("jet-1")).as(which).isEqualTo(inputs);
            assertThat(reader.summary().startups()).as(which).isEqualTo(batches);
            assertThat(reader.summary().dueMessages()).as(which).isEqualTo(batches);
            assertThat(reader.summary().samples()).as(which).isEqualTo(kept.size() / 2);
            assertThat(reader.snapshots("jet-1").get(0).seq()).as(which).isEqualTo(inputs);
            assertThat(db.first("PRAGMA integrity_check", ResultRow::text))
                    .as(which)
                    .contains("ok");
        }
    }
}
