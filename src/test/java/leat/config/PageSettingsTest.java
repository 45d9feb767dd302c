package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import leat.tls.Certificates;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PageSettingsTest {

    private static final Map<String, String> ENVIRONMENT =
            Map.of(
                    "LEAT_MQTT_PASSWORD",
                    "s3cret",
                    "PAGE",
                    "3f1c".repeat(16),
                    "P12",
                    "changeit",
                    "SHORT",
                    "x".repeat(31));

    private static final String TOKEN = "token: { env: PAGE }";

    @TempDir static Path certificates;

    private static Certificates.Server made;

    @TempDir Path folder;

    @BeforeAll
    static void make_a_certificate() throws Exception {
        made = new Certificates(certificates).good();
    }

    private LoadedSite load(String page) throws IOException {
        Path file = folder.resolve("site.yaml");
        Files.writeString(file, GoodSite.TEXT + page);
        return SiteFile.load(file, name -> Optional.ofNullable(ENVIRONMENT.get(name)));
    }

    private PageSettings read(String page) throws IOException {
        LoadedSite loaded = load(page);
        assertThat(loaded.problems()).isEmpty();
        return loaded.site().orElseThrow().page().orElseThrow();
    }

    private String refused(String page) throws IOException {
        LoadedSite loaded = load(page);
        assertThat(loaded.site()).isEmpty();
        return loaded.problems().toString();
    }

    @Test
    void there_is_no_page_unless_it_is_said() throws IOException {
        assertThat(load("").site().orElseThrow().page()).isEmpty();
    }

    @Test
    void on_this_computer_alone_it_needs_no_more_than_an_address() throws IOException {
        PageSettings page = read("page: { listen: '127.0.0.1:8081' }\n");

        assertThat(page.host()).isEqualTo("127.0.0.1");
        assertThat(page.port()).isEqualTo(8081);
        assertThat(page.isLoopback()).isTrue();
        assertThat(page.token()).isEmpty();
        assertThat(page.tls()).isEmpty();
        assertThat(read("page: { listen: '[::1]:8081' }\n").isLoopback()).isTrue();
        assertThat(read("page: { " + TOKEN + " }\n").address()).isEqualTo("127.0.0.1:8080");
        assertThat(read("page: { " + TOKEN + " }\n").toString()).doesNotContain("3f1c3f1c");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.0.0.0:8080", "192.168.1.20:80", "[::]:8080", "[2001:db8::1]:8080"})
    void where_others_can_reach_it_both_tls_and_token_are_due(String listen) throws Exception {
        String tls = tls();

        assertThat(refused("page: { listen: '" + listen + "' }\n"))
                .contains("page.listen", "others can reach", "both tls and token");
        assertThat(refused("page: { listen: '" + listen + "', " + TOKEN + " }\n"))
                .contains("others can reach");
        assertThat(refused("page: { listen: '" + listen + "', " + tls + " }\n"))
                .contains("others can reach");
        PageSettings page =
                read("page: { listen: '" + listen + "', " + tls + ", " + TOKEN + " }\n");
        assertThat(page.isLoopback()).isFalse();
        assertThat(page.tls()).isPresent();
        assertThat(page.token()).isPresent();
    }

    private static String tls() {
        return "tls: { certificate: %s, key: %s }".formatted(made.certificate(), made.key());
    }

    @Test
    void one_pkcs12_file_will_do() throws Exception {
        Path store = made.store();

        assertThat(read("page: { tls: { pkcs12: " + store + ", password: { env: P12 } } }\n").tls())
                .isPresent();
        assertThat(refused("page: { tls: { pkcs12: " + store + ", password: { env: PAGE } } }\n"))
                .contains("page.tls", "cannot be opened");
        assertThat(refused("page: { tls: { pkcs12: " + store + " } }\n")).contains("password");
        assertThat(refused("page: { tls: { certificate: x.pem } }\n")).contains("key");
        assertThat(refused("page: { tls: { certificate: x.pem, key: y.pem } }\n"))
                .contains("there is no such file");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "127.0.0.1",
                "127.0.0.1:0",
                "127.0.0.1:70000",
                "999.1.1.1:80",
                "yard.example.org:80",
                "8080",
                "http://127.0.0.1:80",
                "[::g]:80"
            })
    void what_is_no_address_of_a_computer_with_a_port_is_refused(String listen) throws IOException {
        assertThat(refused("page: { listen: '" + listen + "' }\n")).contains("page.listen");
    }

    @Test
    void a_token_that_could_be_guessed_is_refused() throws IOException {
        assertThat(refused("page: { token: { env: SHORT } }\n"))
                .contains("too short", "openssl rand -hex 32");
        assertThat(refused("page: { token: secret }\n")).contains("only the place of a secret");
    }

    @Test
    void a_configuration_of_the_past_is_read_without_its_secrets() throws Exception {
        LoadedSite now = load("page: { listen: '0.0.0.0:8080', " + tls() + ", " + TOKEN + " }\n");

        LoadedSite then = SiteFile.archived(now.site().orElseThrow().text());

        assertThat(then.problems()).isEmpty();
        assertThat(then.site().orElseThrow().page().orElseThrow().token()).isEmpty();
    }
}
