package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import leat.Gear;
import leat.config.Site;
import leat.config.SiteFile;
import leat.interop.FreePort;
import leat.page.Call;
import leat.page.Siege;
import leat.service.Daemon;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Many callers that are slow in every way keep neither leat from its work nor others out. */
@Timeout(120)
class SlowClientsTest {

    private static final int CALLERS = Gear.of(200, 1_000);
    private static final Duration SOON = Duration.ofSeconds(20);

    /** Of three channels at 20 Hz; a second's worth. */
    private static final long A_SECONDS_READINGS = 60;

    @TempDir Path folder;

    private Cabinet cabinet;
    private Daemon daemon;
    private int port;

    @BeforeEach
    void start() throws IOException {
        cabinet = new Cabinet();
        port = FreePort.find();
        Path file = folder.resolve("site.yaml");
        Files.writeString(
                file,
                QuickSite.yaml(cabinet.port(), "")
                        + "page: { listen: '127.0.0.1:"
                        + port
                        + "' }\n");
        Site site = SiteFile.load(file, name -> Optional.empty()).site().orElseThrow();
        daemon = new Daemon(site, "test", text -> Optional.empty());
        daemon.start();
        await().atMost(SOON).until(() -> isAnswered(200));
    }

    @AfterEach
    void end() {
        daemon.close();
        cabinet.close();
    }

    @Test
    void readings_keep_coming_and_who_is_quick_is_answered() throws Exception {
        try (Siege siege = Siege.of(CALLERS, port)) {
            assertThat(siege.callers()).isEqualTo(CALLERS);
            long before = readings();

            for (int i = 1; i <= 3; i++) {
                long due = before + i * A_SECONDS_READINGS;
                await().atMost(SOON).until(() -> isAnswered(200) || isAnswered(503));
                await().atMost(SOON).until(() -> readings() >= due);
            }

            assertThat(daemon.health().sources().get(0).faults()).isZero();
            assertThat(daemon.health().lost()).isZero();
        }
        await().atMost(SOON).until(() -> isAnswered(200));
        assertThat(Call.To.plain(port).get("/metrics").body())
                .containsPattern("leat_page_cut_off_total [1-9]");
    }

    private long readings() {
        return daemon.health().sources().get(0).readings();
    }

    private boolean isAnswered(int status) {
        try {
            return Call.To.plain(port).get("/health").status() == status;
        } catch (IOException e) {
            return false;
        }
    }
}
