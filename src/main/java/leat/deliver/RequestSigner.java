package leat.deliver;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import java.net.URI;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import leat.config.Secret;
import leat.deliver.SignatureBase.Component;
import leat.deliver.SignatureBase.Parameter;

/**
 * Proves to a receiver who sent a message, where to, and when: an HTTP message signature (RFC 9421)
 * by {@code hmac-sha256} over method, address, content type, id of the message and the digest of
 * its body (RFC 9530). {@link #TAG} names this selection; another one is another tag. Immutable.
 */
final class RequestSigner {

    /** What is covered, as a name: src/docs/messages.md tells it. */
    static final String TAG = "leat.webhook/1";

    static final String MESSAGE_ID = "Leat-Message-Id";

    private static final String LABEL = "leat";
    private static final String ALGORITHM = "HmacSHA256";
    private static final String JSON = "application/json";

    private final SecretKeySpec key;
    private final String keyId;
    private final String target;

    /**
     * @param secret its text as UTF-8 is the key
     * @param keyId which secret that is, for a receiver that knows several
     * @param url where the request goes
     */
    RequestSigner(Secret secret, String keyId, URI url) {
        this.key = key(requireNonNull(secret, "secret").reveal().getBytes(UTF_8));
        this.keyId = requireNonNull(keyId, "keyId");
        this.target = target(url);
    }

    /**
     * The headers of a POST that carries a message.
     *
     * @param id of the message, printable ASCII
     * @param epochSeconds when this try is made, seconds since 1970
     */
    Map<String, String> headers(String id, byte[] body, long epochSeconds) {
        String digest = contentDigest(body);
        SignatureBase base =
                new SignatureBase(
                        List.of(
                                new Component("@method", "POST"),
                                new Component("@target-uri", target),
                                new Component("content-type", JSON),
                                new Component("content-digest", digest),
                                new Component("leat-message-id", id)),
                        List.of(
                                Parameter.number("created", epochSeconds),
                                Parameter.text("keyid", keyId),
                                Parameter.text("alg", "hmac-sha256"),
                                Parameter.text("tag", TAG)));
        Map<String, String> headers = new LinkedHashMap<>();
        headers.put("Content-Type", JSON);
        headers.put("Content-Digest", digest);
        headers.put(MESSAGE_ID, id);
        headers.put("Signature-Input", LABEL + "=" + base.input());
        headers.put("Signature", LABEL + "=" + bytes(signature(base, key)));
        return headers;
    }

    static SecretKeySpec key(byte[] secret) {
        return new SecretKeySpec(secret, ALGORITHM);
    }

    /** RFC 9421, 3.3.3. */
    static byte[] signature(SignatureBase base, SecretKeySpec key) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(key);
            return mac.doFinal(base.text().getBytes(UTF_8));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java runtime has no " + ALGORITHM, e);
        }
    }

    /** RFC 9530, 2. */
    static String contentDigest(byte[] body) {
        try {
            return "sha-256=" + bytes(MessageDigest.getInstance("SHA-256").digest(body));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java runtime has no SHA-256", e);
        }
    }

    /** RFC 9651, 4.1.8. */
    private static String bytes(byte[] value) {
        return ":" + Base64.getEncoder().encodeToString(value) + ":";
    }

    /**
     * The address as the other side sees it (RFC 9421, 2.2.2; RFC 9110, 4.2.3): host in lower case,
     * no port that goes without saying, a path of at least a slash, no fragment.
     */
    static String target(URI url) {
        String scheme = url.getScheme().toLowerCase(Locale.ROOT);
        boolean usual = url.getPort() < 0 || url.getPort() == (scheme.equals("https") ? 443 : 80);
        String path = url.getRawPath().isEmpty() ? "/" : url.getRawPath();
        return scheme
                + "://"
                + url.getHost().toLowerCase(Locale.ROOT)
                + (usual ? "" : ":" + url.getPort())
                + path
                + (url.getRawQuery() == null ? "" : "?" + url.getRawQuery());
    }
}
