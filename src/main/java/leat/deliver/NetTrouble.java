package leat.deliver;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.net.http.HttpTimeoutException;
import java.nio.channels.UnresolvedAddressException;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import leat.signal.PlainText;
import leat.tls.TlsTrouble;
import leat.words.FaultWords;

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
        for (Throwable cause : causes(failure)) {
            if (cause instanceof UnknownHostException
                    || cause instanceof UnresolvedAddressException) {
                return FaultWords.english("host");
            }
        }
        for (Throwable cause : causes(failure)) {
            Optional<String> words = words(cause.getClass());
            if (words.isPresent()) {
                return words.get();
            }
        }
        return PlainText.harmless(String.valueOf(failure.getMessage()), LONGEST);
    }

    private static List<Throwable> causes(Throwable failure) {
        return Stream.iterate(failure, Objects::nonNull, Throwable::getCause)
                .limit(DEEPEST)
                .toList();
    }

    private static Optional<String> words(Class<?> trouble) {
        if (SocketTimeoutException.class.isAssignableFrom(trouble)
                || HttpTimeoutException.class.isAssignableFrom(trouble)) {
            return Optional.of(FaultWords.english("net.no-answer"));
        }
        if (ConnectException.class.isAssignableFrom(trouble)
                || NoRouteToHostException.class.isAssignableFrom(trouble)) {
            return Optional.of(FaultWords.english("net.unreachable"));
        }
        if (EOFException.class.isAssignableFrom(trouble)
                || SocketException.class.isAssignableFrom(trouble)) {
            return Optional.of(FaultWords.english("net.closed"));
        }
        return Optional.empty();
    }
}
