package leat.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.RouteSettings.MailSecurity;
import leat.config.Secret;
import leat.deliver.CommandRoute;
import leat.deliver.MailRoute;
import leat.deliver.WebhookRoute;
import leat.rule.Grade;
import leat.tls.Trust;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Three routes over a real store and real sockets, one of them in trouble at a time. */
@Timeout(120)
class DeliveryTest {

    private static final RouteScope ALL = RouteScope.from(Grade.ADVISORY);
    private static final Duration BOUND = Duration.ofSeconds(2);
    private static final int MESSAGES = 12;

    @TempDir Path folder;

    private PostRoom room;
    private TroubledPeer mail;
    private TroubledPeer hook;
    private Path siren;

    @BeforeEach
    void open() throws Exception {
        room = new PostRoom(folder);
        mail = new TroubledPeer(TroubledPeer.Kind.MAIL, room::isCommitted);
        hook = new TroubledPeer(TroubledPeer.Kind.WEBHOOK, room::isCommitted);
        siren = Files.createFile(folder.resolve("siren.txt"));
        room.serve(mailRoute(), ALL.giveUpAfter());
        room.serve(hookRoute(), ALL.giveUpAfter());
        room.serve(commandRoute(), ALL.giveUpAfter());
    }

    @AfterEach
    void close() throws Exception {
        room.close();
        mail.close();
        hook.close();
    }

    @ParameterizedTest
    @EnumSource(
            value = TroubledPeer.Condition.class,
            names = {"KILLED", "HUNG", "SLOW", "REFUSING", "FULL"})
    void mail_server_in_trouble_loses_nothing_and_delays_no_other_route(
            TroubledPeer.Condition condition) throws Exception {
        trouble(mail, hook, "mail", condition);
    }

    @ParameterizedTest
    @EnumSource(
            value = TroubledPeer.Condition.class,
            names = {"KILLED", "HUNG", "SLOW", "REFUSING", "FULL"})
    void webhook_receiver_in_trouble_loses_nothing_and_delays_no_other_route(
            TroubledPeer.Condition condition) throws Exception {
        trouble(hook, mail, "hook", condition);
    }

    @Test
    void message_that_is_not_committed_goes_nowhere() throws Exception {
        String committed = room.owe("mail", "hook", "siren");
        room.commit();
        await().until(() -> hook.taken().size() == 1 && mail.taken().size() == 1);

        room.owe("mail", "hook", "siren");
        String after = room.owe("mail");
        await().during(Duration.ofMillis(300)).until(() -> hook.taken().size() == 1);

        assertThat(mail.taken()).containsExactly(committed).doesNotContain(after);
        assertThat(Files.readAllLines(siren)).containsExactly(committed);
    }

    @Test
    void tries_in_vain_are_counted_in_the_store() throws Exception {
        mail.become(TroubledPeer.Condition.REFUSING);
        room.owe("mail");
        room.commit();

        await().atMost(Duration.ofSeconds(20))
                .until(
                        () -> {
                            room.commit();
                            return room.attempts("mail") >= 2;
                        });

        assertThat(room.waiting("mail")).isEqualTo(1);
    }

    /** While it lasts, and after it is over. */
    private void trouble(
            TroubledPeer troubled, TroubledPeer other, String route, TroubledPeer.Condition how)
            throws Exception {
        List<String> ids = owe(MESSAGES / 3);
        await().until(() -> !troubled.taken().isEmpty());
        troubled.become(how);
        ids.addAll(owe(MESSAGES / 3));
        long begun = System.nanoTime();
        await().pollInterval(Duration.ofMillis(20)).until(() -> other.taken().containsAll(ids));
        Duration others = Duration.ofNanos(System.nanoTime() - begun);
        await().until(() -> Files.readAllLines(siren).containsAll(ids));
        troubled.become(TroubledPeer.Condition.WELL);
        ids.addAll(owe(MESSAGES / 3));

        await().atMost(Duration.ofSeconds(40))
                .until(
                        () -> {
                            room.commit();
                            return room.waiting(route) == 0
                                    && room.waiting("siren") == 0
                                    && troubled.taken().containsAll(ids);
                        });
        assertThat(others).as("delay of the other routes").isLessThan(Duration.ofSeconds(5));
        assertThat(troubled.early()).isEmpty();
        assertThat(other.early()).isEmpty();
        assertThat(troubled.taken().stream().distinct().toList()).isEqualTo(ids);
        assertThat(other.taken()).isEqualTo(ids);
        assertThat(Files.readAllLines(siren)).isEqualTo(ids);
    }

    private List<String> owe(int messages) {
        List<String> ids = new ArrayList<>();
        for (int i = 0; i < messages; i++) {
            ids.add(room.owe("mail", "hook", "siren"));
            room.commit();
        }
        return ids;
    }

    private MailRoute mailRoute() {
        return new MailRoute(
                new RouteSettings.Mail(
                        "mail",
                        ALL,
                        "127.0.0.1",
                        mail.port(),
                        MailSecurity.PLAIN,
                        Optional.empty(),
                        Optional.empty(),
                        "leat@example.org",
                        List.of("maintenance@example.org"),
                        Trust.OF_THE_RUNTIME,
                        Duration.ofSeconds(6)),
                "Boatyard",
                Phrases.in(Language.ENGLISH));
    }

    private WebhookRoute hookRoute() {
        return new WebhookRoute(
                new RouteSettings.Webhook(
                        "hook",
                        ALL,
                        URI.create("http://127.0.0.1:" + hook.port() + "/leat"),
                        Optional.of(new Secret("an invented secret of 32 letters")),
                        Trust.OF_THE_RUNTIME,
                        BOUND),
                () -> 1);
    }

    private CommandRoute commandRoute() throws Exception {
        Path program = folder.resolve("siren.sh");
        Files.writeString(program, "#!/bin/sh\necho \"$LEAT_ID\" >> " + siren + "\n");
        assertThat(program.toFile().setExecutable(true)).isTrue();
        return new CommandRoute(
                new RouteSettings.Command(
                        "siren", ALL, List.of(program.toString()), Duration.ofSeconds(10)));
    }
}
