package leat.tls;

import java.security.cert.CertPathBuilderException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;
import java.util.Optional;
import javax.net.ssl.SSLException;
import leat.words.FaultWords;

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
                        Optional.of(FaultWords.english("tls", String.valueOf(cause.getMessage())));
            }
            cause = cause.getCause();
        }
        return general;
    }

    private static Optional<String> exactWords(Throwable cause) {
        String said = String.valueOf(cause.getMessage());
        if (cause instanceof CertificateExpiredException) {
            return Optional.of(FaultWords.english("tls.expired", said));
        }
        if (cause instanceof CertificateNotYetValidException) {
            return Optional.of(FaultWords.english("tls.not-yet", said));
        }
        if (cause instanceof CertPathBuilderException) {
            return Optional.of(FaultWords.english("tls.signer"));
        }
        if (said.startsWith("No subject alternative") || said.startsWith("No name matching")) {
            return Optional.of(FaultWords.english("tls.name", said));
        }
        if (said.contains("nrecognized SSL message")) {
            return Optional.of(FaultWords.english("tls.none"));
        }
        return Optional.empty();
    }
}
