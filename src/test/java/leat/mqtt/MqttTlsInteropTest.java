package leat.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import leat.config.ConnectionSettings;
import leat.config.Secret;
import leat.interop.Mosquitto;
import leat.interop.Passwords;
import leat.interop.Peer;
import leat.tls.Certificates;
import leat.tls.Trust;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Debian's mosquitto with TLS and passwords. */
@Timeout(60)
class MqttTlsInteropTest {

    @TempDir static Path folder;

    private static Certificates certificates;
    private static Path passwords;

    private Mosquitto broker;
    private MqttLink link;

    @BeforeAll
    static void make_certificates_and_passwords() throws Exception {
        Peer.require("mosquitto");
        certificates = new Certificates(folder.resolve("pki"));
        passwords = Passwords.of(folder.resolve("passwords"), "leat");
    }

    @AfterEach
    void close() {
        link.close();
        broker.close();
    }

    @Test
    void broker_with_tls_and_password_takes_and_hands_on() throws Exception {
        start(certificates.good());
        connect("ssl", "invented", certificates.trust());
        await().until(() -> link.health().connected());
        Mosquitto.Heard heard =
                broker.listen(
                        "leat/#",
                        "--cafile",
                        certificates.caFile().toString(),
                        "-u",
                        "leat",
                        "-P",
                        "invented");

        await().until(
                        () ->
                                link.publish("leat/hall", "hello", 1, true).acknowledged()
                                        && !heard.lines().isEmpty());

        assertThat(heard.lines().get(0)).endsWith("leat/hall hello");
    }

    @Test
    void wrong_password_is_refused_in_clear_words() throws Exception {
        start(certificates.good());

        connect("ssl", "guessed", certificates.trust());

        assertRefused("not authorized; check user name, password");
        assertThat(link.health().lastFault()).doesNotContain("guessed");
    }

    @Test
    void expired_certificate_is_refused_in_clear_words() throws Exception {
        start(certificates.expired());

        connect("ssl", "invented", certificates.trust());

        assertRefused("the server's certificate has expired");
    }

    @Test
    void certificate_of_another_host_is_refused_in_clear_words() throws Exception {
        start(certificates.elsewhere());

        connect("ssl", "invented", certificates.trust());

        assertRefused("made out for another host name");
    }

    @Test
    void certificate_that_nobody_trusted_has_signed_is_refused_in_clear_words() throws Exception {
        start(certificates.good());

        connect("ssl", "invented", Trust.OF_THE_RUNTIME);

        assertRefused("signed by nobody whom leat trusts");
    }

    private void assertRefused(String words) {
        await().untilAsserted(() -> assertThat(link.health().lastFault()).contains(words));
        assertThat(link.health().connected()).isFalse();
        assertThat(link.publish("leat/hall", "hello", 1, false).acknowledged()).isFalse();
    }

    private void start(Certificates.Server shown) throws Exception {
        broker =
                new Mosquitto(
                        folder,
                        "certfile " + shown.certificate(),
                        "keyfile " + shown.key(),
                        "allow_anonymous false",
                        "password_file " + passwords);
        broker.start();
    }

    private void connect(String scheme, String password, Trust trust) {
        link =
                new MqttLink(
                        new ConnectionSettings.Mqtt(
                                "hall",
                                scheme + "://127.0.0.1:" + broker.port(),
                                "leat-test",
                                Optional.of("leat"),
                                Optional.of(new Secret(password)),
                                trust,
                                Optional.empty(),
                                Duration.ofSeconds(15),
                                Duration.ofMillis(700)),
                        "Boatyard");
        link.start();
    }
}
