package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.time.Duration;
import leat.config.RouteSettings.MailSecurity;
import leat.tls.Trust;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a mail server may answer, or leave unanswered, at each step. */
@Timeout(60)
class MailTroubleTest {

    private ScriptedSmtp server;
    private Route route;

    @BeforeEach
    void open() throws IOException {
        server = new ScriptedSmtp();
        route = MailRoutes.plain(server.port(), "a@example.org", "b@example.org");
    }

    @AfterEach
    void close() throws IOException {
        server.close();
    }

    /** The wait for one answer and the wait for the whole are as long here: either may end it. */
    @ParameterizedTest
    @ValueSource(strings = {"connect", "EHLO", "MAIL", "RCPT", "DATA", "."})
    void silence_at_any_step_is_a_reason_within_the_bound(String step) {
        server.answer(step, ScriptedSmtp.SILENCE);
        Route hurried = MailRoutes.patient(Duration.ofMillis(300), server.port(), "a@example.org");

        DeliveryResult result = hurried.deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason())
                .startsWith("127.0.0.1:" + server.port())
                .containsPattern(": (not done within 0\\.3 s|no answer in time); check");
    }

    @ParameterizedTest
    @ValueSource(strings = {"connect", "EHLO", "MAIL", "RCPT", "DATA", "."})
    void interrupt_at_any_step_ends_the_wait_and_the_connection(String step) throws Exception {
        server.answer(step, ScriptedSmtp.SILENCE);
        Interrupted waiting = Interrupted.whileDelivering(route);

        DeliveryResult result = waiting.interrupt();

        assertThat(result.reason()).contains("interrupted");
        assertThat(waiting.flagWasKept()).isTrue();
        await().untilAsserted(
                        () ->
                                assertThat(Thread.getAllStackTraces().keySet())
                                        .noneMatch(t -> t.getName().equals("leat-mail-hall")));
    }

    @ParameterizedTest
    @CsvSource({
        "MAIL, 452 4.3.1 insufficient storage",
        "RCPT, 450 4.2.1 mailbox busy",
        "RCPT, 452 4.2.2 mailbox full",
        "RCPT, 552 5.2.2 mailbox full",
        "RCPT, 550 5.7.1 relaying denied",
        "DATA, 451 4.3.0 local error",
        "., 452 4.3.1 disk full",
        "., 552 5.2.2 over quota",
        "MAIL, 553 sender not allowed",
        "MAIL, 530 authentication required",
        "connect, 421 too busy",
        "connect, 554 no mail here",
    })
    void trouble_that_may_pass_or_that_somebody_can_mend_is_not_now(String step, String answer) {
        server.answer(step, answer);
        DeliveryResult result = route.deliver(Changes.message(1));
        server.answerAsUsual();
        DeliveryResult later = route.deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(later).isEqualTo(DeliveryResult.DELIVERED);
        assertThat(server.taken()).hasSize(1);
    }

    @ParameterizedTest
    @CsvSource({
        "RCPT, 550 5.1.1 no such user",
        "., 554 5.7.1 content refused",
        "DATA, 554 5.5.1 no",
    })
    void refusal_of_receiver_or_content_is_for_good(String step, String answer) {
        server.answer(step, answer);

        DeliveryResult result = route.deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.REFUSED);
        assertThat(result.reason())
                .startsWith("127.0.0.1:" + server.port())
                .contains("refused for good", "a@example.org", "b@example.org", answer);
    }

    @Test
    void receiver_whose_mailbox_is_full_makes_no_repeat_for_the_other() {
        server.answer("RCPT TO:<b@", "452 4.2.2 mailbox full");
        DeliveryResult first = route.deliver(Changes.message(1));
        DeliveryResult second = route.deliver(Changes.message(1));
        server.answerAsUsual();
        DeliveryResult third = route.deliver(Changes.message(1));

        assertThat(first.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(first.reason()).contains("not for b@example.org", "mailbox full");
        assertThat(second.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(third).isEqualTo(DeliveryResult.DELIVERED);
        assertThat(server.taken())
                .extracting(t -> t.lines().findFirst().orElseThrow())
                .containsExactly("[<a@example.org>]", "[<b@example.org>]");
    }

    @Test
    void receiver_that_does_not_exist_holds_up_nobody_and_is_told() {
        server.answer("RCPT TO:<a@", "550 5.1.1 no such user");

        DeliveryResult result = route.deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.REFUSED);
        assertThat(result.reason())
                .contains("a@example.org (550 5.1.1 no such user", "delivered to b@example.org");
        assertThat(server.taken()).hasSize(1);
    }

    @Test
    void server_without_starttls_gets_nothing_but_a_greeting() {
        Route secure =
                MailRoutes.secure(
                        server.port(),
                        MailSecurity.STARTTLS,
                        MailRoutes.PASSWORD,
                        Trust.OF_THE_RUNTIME);

        DeliveryResult result = secure.deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason())
                .contains("offers no STARTTLS, and leat sends nothing in clear", "nobody sits");
        assertThat(server.heard()).allMatch(line -> line.matches("(EHLO|HELO|QUIT|RSET).*"));
    }

    @Test
    void starttls_that_is_refused_or_is_no_tls_sends_nothing_in_clear() {
        server.answer("EHLO", "250-boatyard.example.org\r\n250-AUTH PLAIN LOGIN\r\n250 STARTTLS");
        server.answer("STARTTLS", "454 not now");
        Route secure =
                MailRoutes.secure(
                        server.port(),
                        MailSecurity.STARTTLS,
                        MailRoutes.PASSWORD,
                        Trust.OF_THE_RUNTIME);

        DeliveryResult refused = secure.deliver(Changes.message(1));
        server.answer("STARTTLS", "220 come on\r\n250 but this is no TLS");
        DeliveryResult lied = secure.deliver(Changes.message(1));

        assertThat(refused.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(lied.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(server.heard())
                .noneMatch(line -> line.matches("(AUTH|MAIL|RCPT|DATA).*"))
                .noneMatch(line -> line.contains("invented"));
    }

    @Test
    void server_that_asks_for_no_password_where_one_is_set_gets_no_message() {
        Route named =
                MailRoutes.secure(
                        server.port(),
                        MailSecurity.PLAIN,
                        MailRoutes.PASSWORD,
                        Trust.OF_THE_RUNTIME);

        DeliveryResult result = named.deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason()).contains("it offers no way to log in");
        assertThat(server.taken()).isEmpty();
    }

    @Test
    void port_without_tls_is_said_to_have_none() {
        Route secure =
                MailRoutes.secure(
                        server.port(), MailSecurity.TLS, MailRoutes.PASSWORD, Trust.OF_THE_RUNTIME);

        DeliveryResult result = secure.deliver(Changes.message(1));

        assertThat(result.reason()).contains("speaks no TLS on this port; check the port");
    }

    @Test
    void connection_that_breaks_in_mid_talk_is_a_reason() throws Exception {
        server.answer("DATA", ScriptedSmtp.SILENCE);
        Thread breaking =
                new Thread(
                        () -> {
                            await().until(() -> server.heard().contains("DATA"));
                            try {
                                server.close();
                            } catch (IOException e) {
                                throw new IllegalStateException(e);
                            }
                        });
        breaking.start();

        DeliveryResult result = route.deliver(Changes.message(1));
        breaking.join();

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason()).startsWith("127.0.0.1:");
    }
}
