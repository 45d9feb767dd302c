package leat.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.deliver.CommandRoute;
import leat.rule.Grade;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * Real couriers over a real store, with a program at the end of the route. What trouble at the
 * other side does is played by {@code leat.day}.
 */
@Timeout(60)
class DeliveryTest {

    private static final RouteScope ALL = RouteScope.from(Grade.ADVISORY);

    @TempDir Path folder;

    private PostRoom room;
    private Path heard;
    private Path exitCode;

    @BeforeEach
    void open() throws Exception {
        room = new PostRoom(folder);
        heard = Files.createFile(folder.resolve("siren.txt"));
        exitCode = Files.writeString(folder.resolve("exit-code"), "0\n");
        room.serve(siren(), ALL.giveUpAfter());
    }

    @AfterEach
    void close() {
        room.close();
    }

    @Test
    void message_that_is_not_committed_goes_nowhere() throws Exception {
        String committed = room.owe("siren");
        room.commit();
        await().until(() -> Files.readAllLines(heard).size() == 1);

        room.owe("siren");

        await().during(Duration.ofMillis(300))
                .until(() -> Files.readAllLines(heard).equals(List.of(committed)));
    }

    @Test
    void tries_in_vain_are_counted_in_the_store() throws Exception {
        Files.writeString(exitCode, "1\n");
        room.owe("siren");
        room.commit();

        await().atMost(Duration.ofSeconds(20))
                .until(
                        () -> {
                            room.commit();
                            return room.attempts("siren") >= 2;
                        });

        assertThat(room.waiting("siren")).isEqualTo(1);
    }

    private CommandRoute siren() throws Exception {
        Path program = folder.resolve("siren.sh");
        Files.writeString(
                program,
                "#!/bin/sh\nread code < %s\necho \"$LEAT_ID\" >> %s\nexit $code\n"
                        .formatted(exitCode, heard));
        assertThat(program.toFile().setExecutable(true)).isTrue();
        return new CommandRoute(
                new RouteSettings.Command(
                        "siren", ALL, List.of(program.toString()), Duration.ofSeconds(10)),
                Phrases.in(Language.ENGLISH));
    }
}
