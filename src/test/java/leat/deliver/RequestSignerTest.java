package leat.deliver;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URI;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import leat.config.Secret;
import leat.deliver.SignatureBase.Component;
import leat.deliver.SignatureBase.Parameter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Against the examples of the standards, whose values were written down from memory: they agree.
 */
class RequestSignerTest {

    /** RFC 9421, B.1.5: test-shared-secret. */
    private static final byte[] SHARED_SECRET =
            Base64.getDecoder()
                    .decode(
                            "uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==");

    private static final SignatureBase EXAMPLE =
            new SignatureBase(
                    List.of(
                            new Component("date", "Tue, 20 Apr 2021 02:07:55 GMT"),
                            new Component("@authority", "example.com"),
                            new Component("content-type", "application/json")),
                    List.of(
                            Parameter.number("created", 1_618_884_473),
                            Parameter.text("keyid", "test-shared-secret")));

    @Test
    void signature_is_the_one_of_the_standards_example_for_a_shared_secret() {
        byte[] signature = RequestSigner.signature(EXAMPLE, RequestSigner.key(SHARED_SECRET));

        // RFC 9421, B.2.5
        assertThat(EXAMPLE.text())
                .isEqualTo(
                        """
                        "date": Tue, 20 Apr 2021 02:07:55 GMT
                        "@authority": example.com
                        "content-type": application/json
                        "@signature-params": ("date" "@authority" "content-type")\
                        ;created=1618884473;keyid="test-shared-secret\"""");
        assertThat(Base64.getEncoder().encodeToString(signature))
                .isEqualTo("pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=");
    }

    @Test
    void digest_is_the_one_of_the_standards_examples() {
        // RFC 9530, appendix D, and the example of section 2, whose body ends in a line feed
        assertThat(RequestSigner.contentDigest("{\"hello\": \"world\"}".getBytes(UTF_8)))
                .isEqualTo("sha-256=:X48E9qOokqqrvdts8nOJRJN3OWDUoyWxBf7kbu9DBPE=:");
        assertThat(RequestSigner.contentDigest("{\"hello\": \"world\"}\n".getBytes(UTF_8)))
                .isEqualTo("sha-256=:RK/0qy18MlBSVnWgjwz6lZEWjP/lF5HF9bvEF8FabDg=:");
    }

    @Test
    void every_header_of_a_request_is_as_the_page_for_receivers_says() {
        RequestSigner signer =
                new RequestSigner(
                        new Secret("an invented secret of 32 letters"),
                        "office",
                        URI.create("https://hooks.example.org/leat"));

        Map<String, String> headers =
                signer.headers("a/1", "{\"id\":\"a/1\"}".getBytes(UTF_8), 1_767_592_861);

        assertThat(headers)
                .containsEntry("Content-Type", "application/json")
                .containsEntry(
                        "Content-Digest", "sha-256=:vMCXi+qQoCdPc/6DhQVFWvfALR9VOPk4OSgIEv8O4tQ=:")
                .containsEntry("Leat-Message-Id", "a/1")
                .containsEntry(
                        "Signature-Input",
                        "leat=(\"@method\" \"@target-uri\" \"content-type\" \"content-digest\""
                                + " \"leat-message-id\");created=1767592861;keyid=\"office\""
                                + ";alg=\"hmac-sha256\";tag=\"leat.webhook/1\"")
                // the signature base in a file: openssl dgst -sha256 -binary -hmac '...' | base64
                .containsEntry("Signature", "leat=:nXuvoVEeL0j/tJDpNGPlPY3Vafil7rf59Np7MC+fMhY=:")
                .hasSize(5);
    }

    @ParameterizedTest
    @CsvSource({
        "https://hooks.example.org/leat,         https://hooks.example.org/leat",
        "https://Hooks.Example.org:443/Leat?a=B, https://hooks.example.org/Leat?a=B",
        "http://127.0.0.1:80,                    http://127.0.0.1/",
        "https://127.0.0.1:8443?a=%20b,          https://127.0.0.1:8443/?a=%20b",
        "https://[::1]:80/a#part,                https://[::1]:80/a",
    })
    void address_is_signed_as_the_other_side_sees_it(URI url, String signed) {
        assertThat(RequestSigner.target(url)).isEqualTo(signed);
    }

    @Test
    void what_would_be_another_line_or_no_string_of_a_structured_field_is_not_signed() {
        assertThat(Parameter.text("keyid", "a\"b\\c").bare()).isEqualTo("\"a\\\"b\\\\c\"");
        assertThatThrownBy(() -> Parameter.text("keyid", "Büro"))
                .hasMessageContaining("not printable ASCII");
        assertThatThrownBy(() -> new Component("content-type", "a\n\"@method\": GET"))
                .hasMessageContaining("would be another line");
        assertThatThrownBy(
                        () ->
                                new SignatureBase(
                                        List.of(new Component("a", "1"), new Component("a", "2")),
                                        List.of()))
                .hasMessageContaining("covered twice");
    }
}
