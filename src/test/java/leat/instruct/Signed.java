package leat.instruct;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.security.GeneralSecurityException;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import leat.config.InstructionSettings.Person;
import leat.config.Secret;

/**
 * Messages as a person's program makes them, from src/docs/instructions.md alone; invented tokens.
 */
public final class Signed {

    public static final String TOPIC = "leat/boatyard/instructions";
    public static final String ANNA = "3f1c".repeat(16);
    public static final String BEN = "a94b".repeat(16);

    static final List<Person> PEOPLE =
            List.of(
                    new Person("anna", Optional.of(new Secret(ANNA))),
                    new Person("ben", Optional.of(new Secret(BEN))));

    private Signed() {}

    public static byte[] message(String person, String token, String words) {
        return message(TOPIC, person, token, words.getBytes(UTF_8));
    }

    static byte[] message(String topic, String person, String token, byte[] words) {
        byte[] head =
                ("v1 " + person + " " + signature(topic, person, token, words) + "\n")
                        .getBytes(UTF_8);
        byte[] message = new byte[head.length + words.length];
        System.arraycopy(head, 0, message, 0, head.length);
        System.arraycopy(words, 0, message, head.length, words.length);
        return message;
    }

    static String signature(String topic, String person, String token, byte[] words) {
        try {
            Mac mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(token.getBytes(UTF_8), "HmacSHA256"));
            mac.update((topic + "\n" + person + "\n").getBytes(UTF_8));
            return HexFormat.of().formatHex(mac.doFinal(words));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Words with time and nonce behind what stands in {@code what}. */
    public static String words(long atSeconds, String nonce, String what) {
        return "{\"at\":" + atSeconds + ",\"nonce\":\"" + nonce + "\"," + what + "}";
    }
}
