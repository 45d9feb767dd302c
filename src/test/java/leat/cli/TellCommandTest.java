package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import leat.deliver.WebhookReceiver;
import leat.interop.FreePort;
import leat.tls.Certificates;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Types {@code leat tell} beside a site that no leat watches. */
class TellCommandTest {

    @TempDir Path folder;

    private Ran tell(String routes, String... words) throws IOException {
        Path file =
                Files.writeString(
                        folder.resolve("site.yaml"),
                        """
                        site: { name: Boatyard }
                        connections: { plc: { modbus_tcp: { host: 127.0.0.1 } } }
                        machines:
                          jet-1:
                            channels:
                              boosted:
                                from: plc
                                register: { unit_id: 1, table: input_register, address: 0, type: float32 }
                                unit: psi
                        tell:
                        """
                                + routes.indent(2));
        List<String> typed = new ArrayList<>(List.of("tell", "--site", file.toString()));
        typed.addAll(List.of(words));
        return Ran.leat(typed.toArray(String[]::new));
    }

    @Test
    void without_a_route_or_with_a_wrong_one_all_of_them_are_listed() throws IOException {
        String routes =
                """
                hall: { by: { command: { run: [ /bin/true ] } } }
                log: { by: { log: { } } }""";

        Ran none = tell(routes);
        Ran wrong = tell(routes, "hal", "--test");
        Ran noTest = tell(routes, "hall");

        assertThat(none.err()).contains("Say which route", "  hall: command /bin/true", "  log: ");
        assertThat(wrong.err()).contains("There is no route hal. Did you mean hall?", "  log: ");
        assertThat(noTest.err()).contains("Say that it is a test: leat tell hall --test.");
        assertThat(Stream.of(none, wrong, noTest).map(Ran::code)).containsOnly(2);
    }

    @Test
    void program_is_run_as_for_any_message_and_told_that_it_is_a_test() throws IOException {
        Path heard = folder.resolve("heard");
        String routes =
                """
                siren: { about: { from: CRITICAL }, by: { command: {
                    run: [ /bin/sh, -c, 'echo "$LEAT_EVENT $LEAT_KIND $LEAT_SHORT" > "$0"', %s ] } } }"""
                        .formatted(heard);

        Ran ran = tell(routes, "siren", "--test");

        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .containsSubsequence("siren: command /bin/sh", "Accepted after", "message test/");
        assertThat(heard).content().startsWith("test notice TEST, nothing to do.");
        assertThat(folder.resolve("data")).doesNotExist();
    }

    @Test
    void what_hinders_it_is_said_with_what_to_check() throws IOException {
        Files.writeString(folder.resolve("secret"), "an invented secret");
        String routes =
                """
                office: { by: { mail: { host: 127.0.0.1, port: %d, security: plain,
                    from: leat@example.org, to: [ shift@example.org ] } } }"""
                        .formatted(FreePort.find());

        Ran ran = tell(routes, "office", "--test");

        assertThat(ran.code()).isEqualTo(1);
        assertThat(ran.out())
                .containsSubsequence(
                        "office: mail to shift@example.org, by 127.0.0.1:",
                        "NOT accepted: 127.0.0.1:",
                        "connection refused",
                        "check");
    }

    @Test
    void receiver_of_a_webhook_gets_a_signed_message_that_says_test() throws Exception {
        Certificates certificates = new Certificates(folder.resolve("pki"));
        List<String> bodies = new ArrayList<>();
        Files.writeString(folder.resolve("secret"), WebhookReceiver.SECRET);
        try (WebhookReceiver receiver = WebhookReceiver.https(certificates.good(), 0)) {
            receiver.onTaken((id, body) -> bodies.add(body));
            String routes =
                    """
                    hook: { by: { webhook: { url: "https://127.0.0.1:%d/leat", ca_file: %s,
                        secret: { file: secret } } } }"""
                            .formatted(receiver.port(), certificates.caFile());

            Ran ran = tell(routes, "hook", "--test");

            assertThat(ran.code()).isZero();
            assertThat(ran.out()).doesNotContain("/leat");
        }
        JsonNode json = new ObjectMapper().readTree(bodies.get(0));
        assertThat(json.get("test").booleanValue()).isTrue();
        assertThat(json.get("subject").textValue()).startsWith("TEST, nothing to do");
    }

    @Test
    void log_is_written_where_the_person_looks() throws IOException {
        Ran ran = tell("log: { by: { log: { } } }", "log", "--test");

        assertThat(ran.code()).isZero();
        assertThat(ran.out()).contains("Accepted after", "\"TEST, nothing to do: Boatyard\"");
    }
}
