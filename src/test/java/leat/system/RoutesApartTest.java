package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Two routes whose programs wait for each other: neither ends unless both run at the same time. */
@Timeout(120)
class RoutesApartTest {

    private static final Duration SOON = Duration.ofSeconds(60);

    @TempDir Path folder;

    @Test
    void a_route_in_the_middle_of_a_delivery_delays_no_other() throws Exception {
        try (Cabinet cabinet = new Cabinet()) {
            Ledger ledger = new Ledger(folder.resolve("data/leat.db"));
            cabinet.show(12, 102);
            Files.writeString(
                    folder.resolve("site.yaml"),
                    QuickSite.yaml(
                            cabinet.port(),
                            "",
                            "hall: %s\n  yard: %s"
                                    .formatted(waiting("hall", "yard"), waiting("yard", "hall"))));

            try (LeatProcess leat = LeatProcess.watching(folder)) {
                await().atMost(SOON)
                        .until(() -> isDelivered(ledger, "hall") && isDelivered(ledger, "yard"));

                assertThat(leat.log()).as("each at its first try").doesNotContain("trying again");
            }
        }
    }

    private static boolean isDelivered(Ledger ledger, String route) {
        return ledger.owed(route).stream().anyMatch(Ledger.Owed::delivered);
    }

    /** A route whose program says that it is there and waits until the other's has come. */
    private String waiting(String name, String other) throws IOException {
        Path program = folder.resolve(name + ".sh");
        Files.writeString(
                program,
                "#!/bin/sh\ntouch %1$s/%2$s\nuntil [ -e %1$s/%3$s ]; do sleep 0.05; done\n"
                        .formatted(folder, name, other));
        assertThat(program.toFile().setExecutable(true)).isTrue();
        return "{ by: { command: { run: [ %s ], timeout: 30 s } } }".formatted(program);
    }
}
