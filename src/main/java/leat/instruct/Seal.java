package leat.instruct;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.US_ASCII;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import leat.config.InstructionSettings.Person;

/**
 * Tells whether a message was signed by the person whom it names. A message is one line {@code v1
 * PERSON SIGNATURE}, a line feed, and the words. The signature is HMAC-SHA256 (RFC 2104, FIPS
 * 198-1) with the person's token, in 64 lower-case hexadecimal digits, over the topic, a line feed,
 * the person's name, a line feed, and the words as they came: a message for one site is none for
 * another, and nothing is parsed before the signature has proved right.
 *
 * <p>Immutable, thread-safe.
 */
final class Seal {

    /**
     * A message whose signature is right.
     *
     * @param person who signed it
     * @param words what was signed
     */
    record Opened(String person, String words) {}

    private static final String ALGORITHM = "HmacSHA256";
    private static final Pattern HEAD = Pattern.compile("v1 ([a-z0-9-]{1,40}) ([0-9a-f]{64})");
    private static final int LONGEST_HEAD = 3 + 40 + 1 + 64;
    private static final int KEY_BYTES = 32;

    private final String topic;
    private final Map<String, SecretKeySpec> keys = new HashMap<>();

    /** For a name that nobody has: the answer takes as long as for a wrong signature. */
    private final SecretKeySpec nobody;

    /**
     * @param people all of them with their tokens
     * @throws IllegalArgumentException for a person whose token was not fetched
     */
    Seal(String topic, List<Person> people) {
        this.topic = topic;
        for (Person person : people) {
            String token =
                    person.token()
                            .orElseThrow(() -> new IllegalArgumentException("no token fetched"))
                            .reveal();
            keys.put(person.name(), new SecretKeySpec(token.getBytes(UTF_8), ALGORITHM));
        }
        byte[] chance = new byte[KEY_BYTES];
        new SecureRandom().nextBytes(chance);
        nobody = new SecretKeySpec(chance, ALGORITHM);
    }

    /** Empty for anything that is not signed as it should be, without saying why. */
    Optional<Opened> open(byte[] message) {
        Optional<Matcher> head = head(message);
        if (head.isEmpty()) {
            return Optional.empty();
        }
        String person = head.get().group(1);
        byte[] given = head.get().group(2).getBytes(US_ASCII);
        byte[] words = Arrays.copyOfRange(message, head.get().end() + 1, message.length);
        byte[] right = signature(person, words).getBytes(US_ASCII);
        boolean signed = MessageDigest.isEqual(right, given);
        return signed && keys.containsKey(person)
                ? text(words).map(text -> new Opened(person, text))
                : Optional.empty();
    }

    /**
     * The signature that a message bears, right or wrong, by which its sender knows the answer;
     * empty text when it bears none.
     */
    static String mark(byte[] message) {
        return head(message).map(m -> m.group(2)).orElse("");
    }

    private static Optional<Matcher> head(byte[] message) {
        int end = 0;
        while (end < message.length && end <= LONGEST_HEAD && message[end] != '\n') {
            end++;
        }
        if (end == message.length || message[end] != '\n') {
            return Optional.empty();
        }
        return Optional.of(HEAD.matcher(new String(message, 0, end, ISO_8859_1)))
                .filter(Matcher::matches);
    }

    private String signature(String person, byte[] words) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(keys.getOrDefault(person, nobody));
            mac.update((topic + "\n" + person + "\n").getBytes(UTF_8));
            return HexFormat.of().formatHex(mac.doFinal(words));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java runtime has no " + ALGORITHM, e);
        }
    }

    private static Optional<String> text(byte[] words) {
        try {
            return Optional.of(UTF_8.newDecoder().decode(ByteBuffer.wrap(words)).toString());
        } catch (CharacterCodingException e) {
            return Optional.empty();
        }
    }
}
