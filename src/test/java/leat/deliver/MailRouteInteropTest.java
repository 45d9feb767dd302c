package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.config.RouteSettings.MailSecurity;
import leat.interop.Exim;
import leat.tls.Certificates;
import leat.tls.Trust;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The server is Debian's exim4, with STARTTLS, TLS and a password; none of it is ours. */
class MailRouteInteropTest extends RouteContract {

    private static final Pattern SUBJECT = Pattern.compile("Subject: subject (\\d+)");

    @TempDir static Path folder;

    private static Certificates certificates;
    private static Certificates.Server good;

    private Exim server;

    @BeforeAll
    static void make_certificates() throws Exception {
        Exim.requireIt();
        certificates = new Certificates(folder.resolve("pki"));
        good = certificates.good();
    }

    @Override
    Route open() throws Exception {
        server = new Exim(folder, MailRoutes.USER, MailRoutes.PASSWORD);
        server.start(good);
        return startTls(MailRoutes.PASSWORD);
    }

    @AfterEach
    void end_the_server() {
        server.close();
    }

    @Override
    List<Integer> arrived() throws Exception {
        List<Integer> numbers = new ArrayList<>();
        for (String headers : server.taken()) {
            Matcher subject = SUBJECT.matcher(headers);
            subject.find();
            numbers.add(Integer.parseInt(subject.group(1)));
        }
        return numbers;
    }

    @Test
    void mail_goes_encrypted_and_by_a_person_who_has_logged_in() throws Exception {
        DeliveryResult startTls = route().deliver(Changes.message(1));
        DeliveryResult tls =
                MailRoutes.secure(
                                server.tlsPort(),
                                MailSecurity.TLS,
                                MailRoutes.PASSWORD,
                                certificates.trust())
                        .deliver(Changes.message(2));

        assertThat(List.of(startTls, tls)).containsOnly(DeliveryResult.DELIVERED);
        assertThat(server.taken())
                .hasSize(2)
                .allMatch(headers -> headers.contains("-tls_cipher TLS1.3:"))
                .allMatch(headers -> headers.contains("-auth_id leat"))
                .allMatch(headers -> headers.contains("<leat@example.org>"));
    }

    @Test
    void wrong_password_is_not_now_and_never_shown() throws Exception {
        DeliveryResult result = startTls("another pass word").deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason())
                .startsWith("127.0.0.1:" + server.startTlsPort() + ": ")
                .contains("the server refuses user name or password")
                .doesNotContain("another pass word");
    }

    @Test
    void hostile_text_adds_no_header_and_no_receiver() throws Exception {
        DeliveryResult result = route().deliver(Hostile.message());

        assertThat(result).isEqualTo(DeliveryResult.DELIVERED);
        assertThat(server.taken()).hasSize(1);
        assertThat(server.taken().get(0))
                .contains("\n1\nmaintenance@example.org\n")
                .doesNotContainPattern("\n\\d{3}. +Bcc:");
    }

    @Test
    void expired_certificate_is_refused_in_clear_words_before_the_password_is_said()
            throws Exception {
        server.kill();
        server.start(certificates.expired());

        DeliveryResult startTls = route().deliver(Changes.message(1));
        DeliveryResult tls = tls(certificates.trust()).deliver(Changes.message(1));

        assertThat(List.of(startTls, tls))
                .allMatch(r -> r.kind() == DeliveryResult.Answer.NOT_NOW)
                .allMatch(r -> r.reason().contains("the server's certificate has expired"));
        assertThat(server.taken()).isEmpty();
    }

    @Test
    void certificate_of_another_host_is_refused_in_clear_words() throws Exception {
        server.kill();
        server.start(certificates.elsewhere());

        DeliveryResult startTls = route().deliver(Changes.message(1));
        DeliveryResult tls = tls(certificates.trust()).deliver(Changes.message(1));

        assertThat(List.of(startTls, tls))
                .allMatch(r -> r.kind() == DeliveryResult.Answer.NOT_NOW)
                .allMatch(r -> r.reason().contains("made out for another host name"));
        assertThat(server.taken()).isEmpty();
    }

    @Test
    void certificate_that_nobody_trusted_has_signed_is_refused_in_clear_words() throws Exception {
        DeliveryResult result = tls(Trust.OF_THE_RUNTIME).deliver(Changes.message(1));

        assertThat(result.reason()).contains("signed by nobody whom leat trusts", "ca_file");
        assertThat(server.taken()).isEmpty();
    }

    @Test
    void server_that_was_killed_takes_the_next_try_when_it_is_back() throws Exception {
        server.kill();
        DeliveryResult away = route().deliver(Changes.message(1));
        server.start(good);

        DeliveryResult back = route().deliver(Changes.message(1));

        assertThat(away.reason()).contains("connection refused");
        assertThat(back).isEqualTo(DeliveryResult.DELIVERED);
    }

    private Route startTls(String password) throws Exception {
        return MailRoutes.secure(
                server.startTlsPort(), MailSecurity.STARTTLS, password, certificates.trust());
    }

    private Route tls(Trust trust) {
        return MailRoutes.secure(server.tlsPort(), MailSecurity.TLS, MailRoutes.PASSWORD, trust);
    }
}
