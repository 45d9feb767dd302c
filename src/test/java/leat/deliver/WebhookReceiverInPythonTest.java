package leat.deliver;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Secret;
import leat.interop.Peer;
import leat.rule.Grade;
import leat.tls.Trust;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The few lines of src/docs/messages.md, as somebody would copy them from there. */
@Timeout(60)
class WebhookReceiverInPythonTest {

    private static final String SECRET = "an invented secret with an ü in it";
    private static final String PATH = "/leat?from=yard";

    private Process desk;
    private BufferedReader said;
    private int port;

    @BeforeEach
    void start() throws IOException {
        desk =
                new ProcessBuilder(
                                Peer.require("python3").toString(),
                                "-X",
                                "utf8",
                                "src/test/python/webhook_desk.py",
                                Path.of("src/docs/messages.md").toString(),
                                SECRET,
                                PATH)
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        said = desk.inputReader(UTF_8);
        port = Integer.parseInt(said.readLine());
    }

    @AfterEach
    void end() throws IOException {
        desk.getOutputStream().close();
    }

    @Test
    void code_of_the_page_takes_what_leat_sends() throws IOException {
        DeliveryResult result = deliver(SECRET, "127.0.0.1", 0);

        assertThat(said.readLine()).isEqualTo("True jet-1.ratio.20260105T060101Z/7");
        assertThat(result).isEqualTo(DeliveryResult.DELIVERED);
    }

    @Test
    void code_of_the_page_refuses_another_secret_another_address_and_what_is_old()
            throws IOException {
        DeliveryResult otherSecret = deliver("another secret of some length", "127.0.0.1", 0);
        deliver(SECRET, "localhost", 0);
        deliver(SECRET, "127.0.0.1", -400);

        assertThat(otherSecret.reason()).contains("answers 401", "check the secret");
        assertThat(said.readLine()).startsWith("False");
        assertThat(said.readLine()).startsWith("False");
        assertThat(said.readLine()).startsWith("False");
    }

    private DeliveryResult deliver(String secret, String host, long secondsOff) {
        RouteSettings.Webhook settings =
                new RouteSettings.Webhook(
                        "office",
                        RouteScope.from(Grade.ADVISORY),
                        URI.create("http://" + host + ":" + port + PATH),
                        Optional.of(new Secret(secret)),
                        Trust.OF_THE_RUNTIME,
                        Duration.ofSeconds(20));
        return new WebhookRoute(settings, () -> System.currentTimeMillis() / 1000 + secondsOff)
                .deliver(Changes.message(7));
    }
}
