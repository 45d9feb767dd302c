package leat.store;

import java.util.Locale;
import leat.signal.Keyword;

/**
 * How words are kept. Ordinary text is kept as text. The database would cut a text at a NUL and
 * turn half a surrogate pair into a question mark: such a text is kept as a blob of UTF-16BE, so
 * that it comes back the same.
 */
final class Text {

    private Text() {}

    /** A {@code String}, or a {@code byte[]} for a text that the database cannot keep as text. */
    static Object stored(String text) {
        return isPlain(text) ? text : utf16(text);
    }

    static String read(Object stored) {
        return stored instanceof byte[] bytes ? fromUtf16(bytes) : (String) stored;
    }

    /** The word for an enum constant: {@code RETURNED_UNACKNOWLEDGED} is kept with dashes. */
    static String word(Enum<?> constant) {
        return Keyword.of(constant);
    }

    /**
     * @throws IllegalArgumentException for a word that is none of {@code type}
     */
    static <E extends Enum<E>> E constant(Class<E> type, String word) {
        return Enum.valueOf(type, word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    private static boolean isPlain(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == 0 || Character.isLowSurrogate(c)) {
                return false;
            }
            if (Character.isHighSurrogate(c)) {
                i++;
                if (i == text.length() || !Character.isLowSurrogate(text.charAt(i))) {
                    return false;
                }
            }
        }
        return true;
    }

    /** By hand: the encoders of the JDK replace half a pair. */
    private static byte[] utf16(String text) {
        byte[] bytes = new byte[2 * text.length()];
        for (int i = 0; i < text.length(); i++) {
            bytes[2 * i] = (byte) (text.charAt(i) >>> 8);
            bytes[2 * i + 1] = (byte) text.charAt(i);
        }
        return bytes;
    }

    private static String fromUtf16(byte[] bytes) {
        StringBuilder text = new StringBuilder(bytes.length / 2);
        for (int i = 0; i + 1 < bytes.length; i += 2) {
            text.append((char) ((bytes[i] & 0xff) << 8 | bytes[i + 1] & 0xff));
        }
        return text.toString();
    }
}
