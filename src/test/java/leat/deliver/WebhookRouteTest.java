package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.Gear;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Secret;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import leat.store.Message;
import leat.tls.Certificates;
import leat.tls.Trust;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The receiver is the JDK's HTTPS server, which checks the signature by itself. */
class WebhookRouteTest extends RouteContract {

    private static final String CHECKED = "check";

    @TempDir static Path folder;

    private static Certificates certificates;
    private static Certificates.Server good;

    private WebhookReceiver receiver;

    @BeforeAll
    static void make_certificates() throws Exception {
        certificates = new Certificates(folder.resolve("pki"));
        good = certificates.good();
    }

    @Override
    Route open() throws Exception {
        receiver = WebhookReceiver.https(good, 0);
        return route("https", receiver.port(), certificates.trust());
    }

    @AfterEach
    void end_the_receiver() {
        receiver.close();
    }

    @Override
    List<Integer> arrived() {
        return receiver.bodies().stream()
                .map(body -> Integer.parseInt(body.replaceAll(".*:(\\d+)}", "$1")))
                .toList();
    }

    @Test
    void id_in_the_header_is_the_one_of_the_message_at_every_repeat() {
        route().deliver(Changes.message(7));
        route().deliver(Changes.message(7));

        assertThat(receiver.ids())
                .containsExactly(
                        "jet-1.ratio.20260105T060101Z/7", "jet-1.ratio.20260105T060101Z/7");
    }

    @Test
    void wrong_secret_is_not_now_because_somebody_can_mend_it() {
        Route other =
                new WebhookRoute(
                        settings(
                                URI.create("https://127.0.0.1:" + receiver.port() + "/leat"),
                                "another secret of some length",
                                trusted()),
                        WebhookRouteTest::now);

        DeliveryResult result = other.deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason()).contains("answers 401", "check the secret");
        assertThat(receiver.bodies()).isEmpty();
    }

    static List<Integer> aboutTheMessage() {
        return Gear.everyNth(4, List.of(400, 410, 413, 415, 422));
    }

    @ParameterizedTest
    @MethodSource("aboutTheMessage")
    void answer_about_the_message_refuses_it_for_good(int status) {
        receiver.answer(status, Map.of());

        DeliveryResult result = route().deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.REFUSED);
        assertThat(result.reason()).contains("https://127.0.0.1:", "answers " + status);
    }

    static List<Integer> aboutTheWayOrTheMoment() {
        return Gear.everyNth(4, List.of(403, 404, 408, 425, 429, 500, 502, 503, 507));
    }

    @ParameterizedTest
    @MethodSource("aboutTheWayOrTheMoment")
    void answer_about_the_way_or_the_moment_is_not_now(int status) {
        receiver.answer(status, Map.of());

        DeliveryResult result = route().deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason()).contains("answers " + status);
        assertThat(result.pause()).isZero();
    }

    @Test
    void receiver_says_how_long_it_wants_to_be_left_alone() {
        receiver.answer(429, Map.of("Retry-After", "120"));
        Duration seconds = route().deliver(Changes.message(1)).pause();
        receiver.answer(503, Map.of("Retry-After", "Wed, 21 Oct 2099 07:28:00 GMT"));
        Duration date = route().deliver(Changes.message(1)).pause();
        receiver.answer(503, Map.of("Retry-After", "Wed, 21 Oct 2015 07:28:00 GMT"));
        Duration past = route().deliver(Changes.message(1)).pause();
        receiver.answer(503, Map.of("Retry-After", "soon"));
        Duration nonsense = route().deliver(Changes.message(1)).pause();

        assertThat(seconds).isEqualTo(Duration.ofSeconds(120));
        assertThat(date).isEqualTo(Duration.ofDays(1));
        assertThat(past).isZero();
        assertThat(nonsense).isZero();
    }

    @Test
    void redirect_is_not_followed() throws Exception {
        WebhookReceiver other = WebhookReceiver.http();
        receiver.answer(307, Map.of("Location", "http://127.0.0.1:" + other.port() + "/leat"));

        DeliveryResult result = route().deliver(Changes.message(1));
        int followed = other.requests();
        other.close();

        assertThat(result.reason()).contains("a redirect, which is not followed");
        assertThat(followed).isZero();
    }

    @Test
    void receiver_that_does_not_answer_is_a_reason_within_the_bound() {
        receiver.hang(true);

        DeliveryResult result = route().deliver(Changes.message(1));

        assertThat(result.reason()).contains("https://127.0.0.1:", "no answer within 1.5 s");
    }

    @Test
    void interrupt_ends_the_wait_and_is_kept() throws Exception {
        receiver.hang(true);
        Interrupted waiting = Interrupted.whileDelivering(route());
        await().until(() -> receiver.requests() == 1);

        DeliveryResult result = waiting.interrupt();

        assertThat(result.reason()).contains("interrupted");
        assertThat(waiting.flagWasKept()).isTrue();
    }

    @Test
    void receiver_that_is_away_is_a_reason() {
        receiver.close();

        DeliveryResult result = route().deliver(Changes.message(1));

        assertThat(result.reason()).contains("connection refused", CHECKED);
    }

    @Test
    void expired_certificate_is_refused_in_clear_words() throws Exception {
        WebhookReceiver expired = WebhookReceiver.https(certificates.expired(), 0);

        DeliveryResult result =
                route("https", expired.port(), trusted()).deliver(Changes.message(1));
        int requests = expired.requests();
        expired.close();

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason()).contains("the server's certificate has expired", "renew it");
        assertThat(requests).isZero();
    }

    @Test
    void certificate_of_another_host_is_refused_in_clear_words() throws Exception {
        WebhookReceiver elsewhere = WebhookReceiver.https(certificates.elsewhere(), 0);

        DeliveryResult result =
                route("https", elsewhere.port(), trusted()).deliver(Changes.message(1));
        int requests = elsewhere.requests();
        elsewhere.close();

        assertThat(result.reason()).contains("made out for another host name", CHECKED);
        assertThat(requests).isZero();
    }

    @Test
    void certificate_that_nobody_trusted_has_signed_is_refused_in_clear_words() {
        DeliveryResult result =
                route("https", receiver.port(), Trust.OF_THE_RUNTIME).deliver(Changes.message(1));

        assertThat(result.reason()).contains("signed by nobody whom leat trusts", "ca_file");
        assertThat(receiver.requests()).isZero();
    }

    @Test
    void port_without_tls_is_said_to_have_none() throws Exception {
        ScriptedSmtp plain = new ScriptedSmtp();

        DeliveryResult result = route("https", plain.port(), trusted()).deliver(Changes.message(1));
        plain.close();

        assertThat(result.reason()).contains("speaks no TLS on this port");
    }

    @Test
    void server_that_accepts_and_says_nothing_is_a_reason_within_the_bound() throws Exception {
        try (ServerSocket silent = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
            DeliveryResult result =
                    route("https", silent.getLocalPort(), trusted()).deliver(Changes.message(1));

            assertThat(result.reason()).contains("no answer");
        }
    }

    @Test
    void hostile_text_is_json_that_says_the_same_and_nothing_more() throws Exception {
        Message hostile =
                Changes.said(
                        new Wording(Changes.site(PressureUnit.PSI)),
                        Changes.raised(Changes.weakBoost(Grade.WARNING, Hostile.TEXT)));

        DeliveryResult result = route().deliver(hostile);

        assertThat(result).isEqualTo(DeliveryResult.DELIVERED);
        JsonNode json = new ObjectMapper().readTree(receiver.bodies().get(0));
        assertThat(json.path("grade").textValue()).isEqualTo("warning");
        assertThat(json.path("detail").textValue().codePoints()).noneMatch(Character::isISOControl);
    }

    @Test
    void one_megabyte_arrives_whole() {
        Message large = Hostile.message("{\"number\":1,\"text\":\"" + "x".repeat(1 << 20) + "\"}");

        DeliveryResult result = route().deliver(large);

        assertThat(result).isEqualTo(DeliveryResult.DELIVERED);
        assertThat(receiver.bodies()).containsExactly(large.json());
    }

    private static Trust trusted() {
        try {
            return certificates.trust();
        } catch (Exception e) {
            throw new IllegalStateException(e);
        }
    }

    private static Route route(String scheme, int port, Trust trust) {
        return new WebhookRoute(
                settings(
                        URI.create(scheme + "://127.0.0.1:" + port + "/leat"),
                        WebhookReceiver.SECRET,
                        trust),
                WebhookRouteTest::now);
    }

    private static long now() {
        return System.currentTimeMillis() / 1000;
    }

    private static RouteSettings.Webhook settings(URI url, String secret, Trust trust) {
        return new RouteSettings.Webhook(
                "hall",
                RouteScope.from(Grade.ADVISORY),
                url,
                Optional.of(new Secret(secret)),
                trust,
                Duration.ofMillis(1500));
    }
}
