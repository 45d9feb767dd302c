package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import java.nio.file.Path;
import leat.Gear;
import leat.config.RouteSettings.MailSecurity;
import leat.tls.Certificates;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A mail server behind STARTTLS that hangs up before it has said whether it knows the password. */
@Timeout(60)
class MailHangUpTest {

    @TempDir Path folder;

    @Tag(Gear.THOROUGH)
    @Test
    void server_that_hangs_up_after_the_handshake_is_not_said_to_refuse_the_password()
            throws Exception {
        Certificates certificates = new Certificates(folder);
        GreenMail server = new GreenMail(new ServerSetup(0, "127.0.0.1", "smtp"));
        server.start();
        try (StartTlsDoor door =
                new StartTlsDoor(server.getSmtp().getPort(), certificates.good().context())) {
            door.hangUpOnceSecure();

            DeliveryResult result =
                    MailRoutes.secure(
                                    door.port(),
                                    MailSecurity.STARTTLS,
                                    MailRoutes.PASSWORD,
                                    certificates.trust())
                            .deliver(Changes.message(1));

            assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
            assertThat(result.reason())
                    .contains("the server closed the connection in mid-talk")
                    .doesNotContain("password");
        } finally {
            server.stop();
        }
    }
}
