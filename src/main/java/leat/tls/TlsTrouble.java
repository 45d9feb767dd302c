package leat.tls;

import java.security.cert.CertPathBuilderException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;
import java.util.Optional;
import javax.net.ssl.SSLException;

/** What a failed TLS handshake means, in plain words with what to check. */
public final class TlsTrouble {

    private static final int DEEPEST = 10;

    private TlsTrouble() {}

    /**
     * @param failure whatever an attempt to connect ended with
     * @return empty when it had nothing to do with TLS
     */
    public static Optional<String> words(Throwable failure) {
        Optional<String> general = Optional.empty();
        Throwable cause = failure;
        for (int depth = 0; cause != null && depth < DEEPEST; depth++) {
            Optional<String> exact = exactWords(cause);
            if (exact.isPresent()) {
                return exact;
            }
            if (cause instanceof SSLException && general.isEmpty()) {
                general =
                        Optional.of(
                                "TLS failed ("
                                        + cause.getMessage()
                                        + "); check the certificate, the host name, and whether the"
                                        + " port speaks TLS");
            }
            cause = cause.getCause();
        }
        return general;
    }

    private static Optional<String> exactWords(Throwable cause) {
        String said = String.valueOf(cause.getMessage());
        if (cause instanceof CertificateExpiredException) {
            return Optional.of(
                    "the server's certificate has expired ("
                            + said
                            + "); renew it, or check this computer's clock");
        }
        if (cause instanceof CertificateNotYetValidException) {
            return Optional.of(
                    "the server's certificate is not valid yet ("
                            + said
                            + "); check this computer's clock");
        }
        if (cause instanceof CertPathBuilderException) {
            return Optional.of(
                    "the server's certificate is signed by nobody whom leat trusts; name the"
                            + " signer's certificate under ca_file");
        }
        if (said.startsWith("No subject alternative") || said.startsWith("No name matching")) {
            return Optional.of(
                    "the server's certificate is made out for another host name ("
                            + said
                            + "); check the name in the settings, and whom leat really reaches");
        }
        if (said.contains("nrecognized SSL message")) {
            return Optional.of("the server speaks no TLS on this port; check the port");
        }
        return Optional.empty();
    }
}
