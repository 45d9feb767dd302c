package leat.deliver;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.net.http.HttpTimeoutException;
import java.nio.channels.UnresolvedAddressException;
import java.util.Optional;
import leat.signal.PlainText;
import leat.tls.TlsTrouble;

/** What a failed conversation over the network means, in plain words with what to check. */
final class NetTrouble {

    private static final int DEEPEST = 10;
    private static final int LONGEST = 300;

    private NetTrouble() {}

    static String words(Throwable failure) {
        Optional<String> tls = TlsTrouble.words(failure);
        if (tls.isPresent()) {
            return PlainText.harmless(tls.get(), LONGEST);
        }
        Throwable cause = failure;
        for (int depth = 0; cause != null && depth < DEEPEST; depth++) {
            Optional<String> words = exactWords(cause);
            if (words.isPresent()) {
                return words.get();
            }
            cause = cause.getCause();
        }
        return PlainText.harmless(String.valueOf(failure.getMessage()), LONGEST);
    }

    private static Optional<String> exactWords(Throwable cause) {
        if (cause instanceof UnknownHostException || cause instanceof UnresolvedAddressException) {
            return Optional.of("host name not known; check the name, or write the address");
        }
        if (cause instanceof SocketTimeoutException || cause instanceof HttpTimeoutException) {
            return Optional.of("no answer in time; check the network and the server's health");
        }
        if (cause instanceof NoRouteToHostException
                || cause instanceof ConnectException && cause.getCause() == null) {
            return Optional.of(
                    "connection refused or no way there; check that the server runs, and the port");
        }
        if (cause instanceof EOFException) {
            return Optional.of("the server closed the connection in mid-talk; check its log");
        }
        return Optional.empty();
    }
}
