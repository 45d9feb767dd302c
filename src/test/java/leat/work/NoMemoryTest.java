package leat.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A full heap ends the program, also where Java was not told to. */
@Timeout(120)
class NoMemoryTest {

    /** Fills its heap, in a worker's step or in a thread of nobody's. */
    static final class Hoarder {

        private static final int MANY = 1 << 16;

        private Hoarder() {}

        public static void main(String[] args) throws InterruptedException {
            NoMemory.endForAnyThread();
            List<byte[]> all = new ArrayList<>();
            if (args[0].equals("worker")) {
                Duration soon = Duration.ofSeconds(1);
                new Worker("hoarder", () -> hoard(all), soon, soon.multipliedBy(2)).start();
            } else {
                new Thread(() -> hoard(all), "library").start();
            }
            new CountDownLatch(1).await(); // it would watch on for ever
        }

        private static Duration hoard(List<byte[]> all) {
            while (true) {
                all.add(new byte[MANY]);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"worker", "thread"})
    void the_program_ends_at_once_and_says_why(String where)
            throws IOException, InterruptedException {
        Process child =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-Xmx16m",
                                "-XX:+UseSerialGC",
                                "-cp",
                                System.getProperty(
                                        "surefire.test.class.path",
                                        System.getProperty("java.class.path")),
                                Hoarder.class.getName(),
                                where)
                        .start();

        String said = new String(child.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);

        assertThat(child.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(child.exitValue()).as(said).isEqualTo(NoMemory.EXIT_CODE);
        assertThat(said).contains("leat: out of memory");
    }
}
