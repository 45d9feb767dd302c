package leat.deliver;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import java.security.GeneralSecurityException;
import java.util.HexFormat;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import leat.config.Secret;

/**
 * Proves to a receiver who wrote a body, and when: HMAC-SHA256 (RFC 2104, FIPS 198-1) with a shared
 * secret over the timestamp in seconds since 1970 as decimal digits, a full stop, and the body's
 * bytes. Written {@code v1=} and 64 lower-case hexadecimal digits; another scheme would be another
 * number. Immutable.
 */
final class Signature {

    private static final String ALGORITHM = "HmacSHA256";

    private final SecretKeySpec key;

    Signature(Secret secret) {
        key =
                new SecretKeySpec(
                        requireNonNull(secret, "secret").reveal().getBytes(UTF_8), ALGORITHM);
    }

    String of(long epochSeconds, byte[] body) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(key);
            mac.update((epochSeconds + ".").getBytes(UTF_8));
            return "v1=" + HexFormat.of().formatHex(mac.doFinal(body));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java runtime has no " + ALGORITHM, e);
        }
    }
}
