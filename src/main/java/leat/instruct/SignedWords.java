package leat.instruct;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * What the words of a signed message say: a flat JSON object of {@code do}, {@code at}, {@code
 * nonce}, and what the instruction needs, all of it text but {@code at}. Immutable.
 *
 * @param word what to do
 * @param atSeconds when it was signed, by the sender's clock, seconds since 1970
 * @param nonce a word by chance that the sender never uses again
 * @param details what else was said, by key; every value is text
 */
record SignedWords(String word, long atSeconds, String nonce, Map<String, String> details) {

    private static final Pattern NONCE = Pattern.compile("[A-Za-z0-9_-]{16,64}");

    private static final ObjectReader JSON =
            JsonMapper.builder()
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
                    .build()
                    .readerFor(JsonNode.class);

    SignedWords {
        requireNonNull(word, "word");
        requireNonNull(nonce, "nonce");
        details = Map.copyOf(details);
    }

    static SignedWords read(String words) throws Refused {
        JsonNode root = tree(words);
        JsonNode at = root.path("at");
        if (!at.isIntegralNumber() || !at.canConvertToLong()) {
            throw Refused.worded("at is not a whole number of seconds since 1970");
        }
        Map<String, String> texts = texts(root);
        String word = texts.remove("do");
        String nonce = texts.remove("nonce");
        if (word == null) {
            throw Refused.worded("do is missing");
        }
        if (nonce == null || !NONCE.matcher(nonce).matches()) {
            throw Refused.worded("nonce is not 16 to 64 letters, digits, _ and -");
        }
        return new SignedWords(word, at.longValue(), nonce, texts);
    }

    private static JsonNode tree(String words) throws Refused {
        try {
            JsonNode root = JSON.readTree(words);
            if (root.isObject()) {
                return root;
            }
        } catch (IOException e) {
            throw Refused.worded("the words are no JSON, or a key stands twice");
        }
        throw Refused.worded("the words are no JSON object");
    }

    private static Map<String, String> texts(JsonNode root) throws Refused {
        Map<String, String> texts = new LinkedHashMap<>();
        for (Map.Entry<String, JsonNode> field : root.properties()) {
            if (!field.getKey().equals("at")) {
                if (!field.getValue().isTextual()) {
                    throw Refused.worded(field.getKey() + " is no text");
                }
                texts.put(field.getKey(), field.getValue().textValue());
            }
        }
        return texts;
    }
}
