package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.config.PageSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.page.Call;
import leat.page.StatusPage;
import leat.page.Workings;
import leat.store.StoreReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The report of a start on the status page is the one that the command writes. */
class StartOnPageTest {

    @TempDir Path folder;

    @Test
    void the_page_of_a_start_is_the_report_of_the_command() throws IOException {
        StoredSite stored = StoredSite.in(folder);
        stored.saw("jet-2", StoredSite.pressures("worn-booster", "jet-1", StoredSite.SIX));
        Path report = folder.resolve("report.html");
        assertThat(stored.leat("replay", "jet-2/1", "--report", report.toString()).code()).isZero();
        Site site =
                SiteFile.load(folder.resolve("site.yaml"), name -> Optional.empty())
                        .site()
                        .orElseThrow();

        try (StoreReader reader = StoreReader.open(stored.database());
                StatusPage page =
                        new StatusPage(
                                new PageSettings(
                                        "127.0.0.1", 0, Optional.empty(), Optional.empty()),
                                site,
                                () -> reader,
                                () -> StoreReader.open(stored.database()),
                                () -> new Workings(0, 0, 0, "", Map.of(), List.of()),
                                () -> StoredSite.SIX,
                                "test")) {
            page.start();
            await().atMost(Duration.ofSeconds(20)).until(() -> page.port().isPresent());
            Call call = Call.To.plain(page.port().orElseThrow()).get("/start/jet-2/1");

            assertThat(call.status()).isEqualTo(200);
            assertThat(call.body()).isEqualTo(Files.readString(report));
        }
    }
}
