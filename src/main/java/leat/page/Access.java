package leat.page;

import static java.util.Objects.requireNonNull;

import com.sun.net.httpserver.Headers;
import java.net.InetAddress;
import java.util.List;
import java.util.Optional;
import java.util.function.LongSupplier;
import java.util.stream.Stream;

/** Who may look: everybody where no token is asked for, else whoever shows it. Thread-safe. */
final class Access {

    /** What becomes of somebody who asks. */
    enum Verdict {
        /** May look. */
        MAY,
        /** Has shown nothing, or a pass that has ended. */
        UNKNOWN,
        /** Has shown a wrong token. */
        WRONG,
        /** Has shown too many wrong ones. */
        WAIT
    }

    private static final String BEARER = "Bearer ";

    private final Optional<Token> token;
    private final String cookie;
    private final boolean secure;
    private final WrongTokens wrong;
    private final LongSupplier epochSeconds;

    /**
     * @param secure whether leat speaks TLS: then a browser gives its pass to no other
     */
    Access(Optional<Token> token, boolean secure, WrongTokens wrong, LongSupplier epochSeconds) {
        this.token = requireNonNull(token, "token");
        this.secure = secure;
        this.wrong = requireNonNull(wrong, "wrong");
        this.epochSeconds = requireNonNull(epochSeconds, "epochSeconds");
        cookie = secure ? "__Host-leat" : "leat";
    }

    /** Whether anybody is asked. */
    boolean asks() {
        return token.isPresent();
    }

    Verdict of(Headers request, InetAddress from) {
        if (token.isEmpty() || passes(request).anyMatch(this::holds)) {
            return Verdict.MAY;
        }
        List<String> shown = request.getOrDefault("Authorization", List.of());
        if (shown.isEmpty()) {
            return Verdict.UNKNOWN;
        }
        String first = shown.get(0);
        boolean isBearer = first.regionMatches(true, 0, BEARER, 0, BEARER.length());
        return show(isBearer ? first.substring(BEARER.length()).strip() : "", from);
    }

    /** Of a token that was typed or sent. */
    Verdict show(String shown, InetAddress from) {
        if (!wrong.mayTry(from)) {
            return Verdict.WAIT;
        }
        if (token.orElseThrow().is(shown)) {
            return Verdict.MAY;
        }
        wrong.wrong(from);
        return Verdict.WRONG;
    }

    private boolean holds(String pass) {
        return token.orElseThrow().holds(pass, epochSeconds.getAsLong());
    }

    private Stream<String> passes(Headers request) {
        return request.getOrDefault("Cookie", List.of()).stream()
                .flatMap(line -> Stream.of(line.split(";")))
                .map(String::strip)
                .filter(each -> each.startsWith(cookie + "="))
                .map(each -> each.substring(cookie.length() + 1));
    }

    /** What a browser is to keep, until it is closed; no script sees it, no other site sends it. */
    String setCookie() {
        return cookie
                + "="
                + token.orElseThrow().pass(epochSeconds.getAsLong())
                + "; Path=/; HttpOnly; SameSite=Strict"
                + (secure ? "; Secure" : "");
    }
}
