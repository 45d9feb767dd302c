package leat.page;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import leat.config.Secret;

/**
 * What whoever looks has to show, and the pass that a browser gets for it: the second at which it
 * ends, a full stop, and HMAC-SHA256 (RFC 2104) of that second with the token in hexadecimal
 * digits. The pass is not the token, needs no memory, and is worth nothing once the token is
 * another. Comparing takes as long however much is right: what is compared are hashes.
 *
 * <p>Immutable, thread-safe.
 */
final class Token {

    /** A shift and the way there. */
    static final Duration PASS_HOLDS = Duration.ofHours(12);

    private static final String ALGORITHM = "HmacSHA256";
    private static final String PURPOSE = "leat page until ";
    private static final Pattern PASS = Pattern.compile("([0-9]{1,12})\\.([0-9a-f]{64})");

    private final byte[] hash;
    private final SecretKeySpec key;

    Token(Secret secret) {
        String value = requireNonNull(secret, "secret").reveal();
        hash = sha256(value);
        key = new SecretKeySpec(value.getBytes(UTF_8), ALGORITHM);
    }

    boolean is(String shown) {
        return MessageDigest.isEqual(sha256(shown), hash);
    }

    /** A pass from now on. */
    String pass(long nowSeconds) {
        long end = nowSeconds + PASS_HOLDS.toSeconds();
        return end + "." + HexFormat.of().formatHex(seal(end));
    }

    /** Whether it is a pass of this token that has not ended. */
    boolean holds(String pass, long nowSeconds) {
        Matcher parts = PASS.matcher(pass);
        if (!parts.matches()) {
            return false;
        }
        long end = Long.parseLong(parts.group(1));
        boolean isOurs = MessageDigest.isEqual(seal(end), HexFormat.of().parseHex(parts.group(2)));
        return isOurs && end > nowSeconds && end <= nowSeconds + PASS_HOLDS.toSeconds();
    }

    private byte[] seal(long end) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(key);
            return mac.doFinal((PURPOSE + end).getBytes(UTF_8));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java runtime has no " + ALGORITHM, e);
        }
    }

    private static byte[] sha256(String text) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(text.getBytes(UTF_8));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java runtime has no SHA-256", e);
        }
    }

    /** Where one is asked for. */
    static Optional<Token> of(Optional<Secret> secret) {
        return secret.map(Token::new);
    }
}
