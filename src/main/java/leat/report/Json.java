package leat.report;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.ZoneOffset;
import java.util.Locale;
import leat.json.Document;
import leat.signal.PlainText;
import leat.signal.PressureUnit;
import leat.words.FindingWords;
import leat.words.Language;
import leat.words.Numbers;
import leat.words.Phrases;

/** Prints documents for scripts, in the form of {@link Document}. */
public final class Json {

    private static final ObjectMapper MAPPER =
            new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

    /** For further facts to a finding: programs get psi, and English, whatever the site is in. */
    public static final FindingWords IN_PSI =
            new FindingWords(
                    Phrases.in(Language.ENGLISH),
                    new Numbers(Language.ENGLISH, PressureUnit.PSI, ZoneOffset.UTC));

    private Json() {}

    /**
     * The document: harmless on a terminal, and its texts can be read back, but for half a
     * surrogate pair, which no JSON can hold and which becomes U+FFFD.
     */
    public static String print(Record document) {
        return print(Document.of(document));
    }

    static String print(ObjectNode document) {
        try {
            return harmless(MAPPER.writeValueAsString(document));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of plain values cannot fail to print", e);
        }
    }

    /** What JSON lets stand in a text as it is, and should not be shown: as escapes. */
    private static String harmless(String json) {
        StringBuilder out = new StringBuilder(json.length() + 16);
        for (int i = 0; i < json.length(); ) {
            int point = json.codePointAt(i);
            int units = Character.charCount(point);
            if (PlainText.isHarmless(point) || point == '\n' || point == '\r') {
                out.appendCodePoint(point);
            } else if (Character.getType(point) == Character.SURROGATE) {
                out.append("\\ufffd");
            } else {
                json.substring(i, i + units)
                        .chars()
                        .forEach(c -> out.append(String.format(Locale.ROOT, "\\u%04x", c)));
            }
            i += units;
        }
        return out.toString();
    }
}
