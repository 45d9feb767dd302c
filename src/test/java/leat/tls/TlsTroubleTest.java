package leat.tls;

import static org.assertj.core.api.Assertions.assertThat;

import java.security.cert.CertificateException;
import javax.net.ssl.SSLHandshakeException;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The runtime's own words, from memory, for a certificate without and with a list of names. */
class TlsTroubleTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "No name matching mail.boatyard.example found",
                "No subject alternative DNS name matching mail.boatyard.example found.",
                "No subject alternative names matching IP address 127.0.0.1 found"
            })
    void a_certificate_for_another_host_says_so_and_what_to_check(String said) {
        SSLHandshakeException failure = new SSLHandshakeException(said);
        failure.initCause(new CertificateException(said));

        assertThat(TlsTrouble.words(failure).orElseThrow())
                .contains("made out for another host name", said, "check the name");
    }
}
