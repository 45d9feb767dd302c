package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import leat.Gear;
import leat.store.StoreReader;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A route fails, and somebody gives it another name. */
@Timeout(120)
class RenamedRouteTest {

    private static final Duration SOON = Duration.ofSeconds(30);

    @TempDir Path folder;

    @Tag(Gear.THOROUGH)
    @Test
    void what_the_old_name_was_owed_is_given_up_at_the_start_and_told_under_the_new_one()
            throws Exception {
        try (Cabinet cabinet = new Cabinet()) {
            Ledger ledger = new Ledger(folder.resolve("data/leat.db"));
            cabinet.show(12, 102);
            write(cabinet, "hall", "/bin/false");
            try (LeatProcess first = LeatProcess.watching(folder)) {
                await().atMost(SOON).until(() -> ledger.due("hall") == 1);
                first.kill();
            }

            write(cabinet, "works", "/bin/true");
            try (LeatProcess again = LeatProcess.watching(folder)) {
                await().atMost(SOON).until(() -> ledger.owed("works").size() == 1);
                await().atMost(SOON).until(() -> ledger.due("works") == 0);
                again.terminate();

                assertThat(again.log())
                        .contains(
                                "route hall is no longer in site.yaml: what it was owed is given"
                                        + " up, and the other routes are told; messages: 1");
            }

            try (StoreReader reader = ledger.reader()) {
                assertThat(reader.routesOwed()).isEmpty();
            }
            assertThat(ledger.owed("works"))
                    .extracting(Ledger.Owed::id)
                    .containsExactly(ledger.owed("hall").get(0).id() + "/undelivered/hall");
        }
    }

    private void write(Cabinet cabinet, String route, String program) throws IOException {
        Files.writeString(
                folder.resolve("site.yaml"),
                QuickSite.yaml(
                        cabinet.port(),
                        "",
                        "%s: { by: { command: { run: [ %s ] } } }".formatted(route, program)));
    }
}
