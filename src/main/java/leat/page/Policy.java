package leat.page;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.sun.net.httpserver.Headers;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.util.Base64;

/**
 * What a browser may do with an answer: show it, and of scripts and styles only those whose hash is
 * named. Nothing is loaded from elsewhere, nobody frames it, nobody keeps it.
 *
 * @param content Content-Security-Policy
 */
record Policy(String content) {

    private static final String BASE =
            "default-src 'none'; base-uri 'none'; frame-ancestors 'none'";

    /** For what is no page. */
    static final Policy NOTHING = new Policy(BASE + "; form-action 'none'");

    /** A page with this style and no script. */
    static Policy styled(String style) {
        return new Policy(BASE + "; form-action 'none'; img-src data:; style-src " + hash(style));
    }

    /** Likewise, with a form that is sent back here. */
    static Policy form(String style) {
        return new Policy(BASE + "; form-action 'self'; img-src data:; style-src " + hash(style));
    }

    /** Likewise, with this script, which listens for what is new here. */
    static Policy live(String style, String script) {
        return new Policy(
                BASE
                        + "; form-action 'none'; img-src data:; connect-src 'self'; style-src "
                        + hash(style)
                        + "; script-src "
                        + hash(script));
    }

    void put(Headers headers) {
        headers.set("Content-Security-Policy", content);
        headers.set("X-Content-Type-Options", "nosniff");
        headers.set("X-Frame-Options", "DENY");
        headers.set("Referrer-Policy", "no-referrer");
        headers.set("Cross-Origin-Opener-Policy", "same-origin");
        headers.set("Cross-Origin-Resource-Policy", "same-origin");
        headers.set("Permissions-Policy", "camera=(), geolocation=(), microphone=()");
        headers.set("Cache-Control", "no-store");
    }

    private static String hash(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(UTF_8));
            return "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java runtime has no SHA-256", e);
        }
    }
}
