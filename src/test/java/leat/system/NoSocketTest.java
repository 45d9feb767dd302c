package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import leat.interop.Peer;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.opentest4j.TestAbortedException;

/**
 * leat alone in a network of its own: what listens there is leat's. Needs the right to make one,
 * which root has.
 */
class NoSocketTest {

    private static final Duration SOON = Duration.ofSeconds(30);

    /** {@code st} of a socket that listens, in {@code /proc/net/tcp} (proc_pid_net(5)). */
    private static final String LISTENS = "0A";

    private static final String LOOPBACK_8080 = "0100007F:1F90";

    @TempDir Path folder;

    @BeforeAll
    static void may_make_a_network() throws Exception {
        Process tried =
                new ProcessBuilder(Peer.require("unshare").toString(), "--net", "true").start();
        if (!tried.waitFor(10, TimeUnit.SECONDS) || tried.exitValue() != 0) {
            throw new TestAbortedException("only root may make a network of its own: skipped");
        }
    }

    @Test
    void nothing_listens_unless_the_site_says_so() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), QuickSite.yaml(1502, ""));

        try (LeatProcess leat = LeatProcess.inOwnNetwork(folder)) {
            await().atMost(SOON).until(leat::isWatching);

            assertThat(listening(leat.pid())).isEmpty();
        }
    }

    @Test
    void the_page_listens_on_this_computer_alone() throws IOException {
        Files.writeString(
                folder.resolve("site.yaml"),
                QuickSite.yaml(1502, "") + "page: { listen: '127.0.0.1:8080' }\n");

        try (LeatProcess leat = LeatProcess.inOwnNetwork(folder)) {
            await().atMost(SOON).until(() -> leat.log().contains("page: http://127.0.0.1:8080/"));

            assertThat(listening(leat.pid())).hasSize(1).first().asString().endsWith(LOOPBACK_8080);
        }
    }

    /** Local addresses of the sockets that listen in the network of a process. */
    private static List<String> listening(long pid) throws IOException {
        List<String> found = new ArrayList<>();
        for (String table : List.of("tcp", "tcp6")) {
            for (String line : Files.readAllLines(Path.of("/proc/" + pid + "/net/" + table))) {
                String[] columns = line.strip().split(" +");
                if (columns[3].equals(LISTENS)) {
                    found.add(columns[1]);
                }
            }
        }
        return found;
    }
}
