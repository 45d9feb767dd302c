package leat.acquire.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The position of a contact as loggers write it: 0 or 1, a word, or codes that a person has named.
 * Thread-confined.
 */
final class ContactCell {

    private final String key;
    private final List<String> words = new ArrayList<>();
    private final List<Double> numbers = new ArrayList<>();
    private boolean found;

    /**
     * @param key of its channel
     * @param codes which mean "on", separated by commas; empty where nobody has named any
     * @throws BadCell when they hold no code
     */
    ContactCell(String key, Optional<String> codes) {
        this.key = key;
        codes.ifPresent(this::take);
    }

    private void take(String codes) {
        for (String code : codes.split(",", -1)) {
            if (code.isBlank()) {
                throw new BadCell(
                        "the codes of " + key + " are not whole: " + BadCell.quoted(codes),
                        "allowed are numbers or words with commas between, such as 2,16");
            }
            String word = code.strip().toLowerCase(Locale.ROOT);
            words.add(word);
            number(word).ifPresent(numbers::add);
        }
    }

    /**
     * @throws BadCell when nobody can say what this means
     */
    boolean isClosed(char[] buffer, int from, int end) {
        if (words.isEmpty() && end - from == 1 && (buffer[from] == '0' || buffer[from] == '1')) {
            return buffer[from] == '1';
        }
        String word = new String(buffer, from, end - from);
        return words.isEmpty() ? plain(word) : isCode(word.toLowerCase(Locale.ROOT));
    }

    private boolean isCode(String word) {
        boolean is =
                words.contains(word)
                        || !numbers.isEmpty() && number(word).filter(numbers::contains).isPresent();
        found |= is;
        return is;
    }

    /** Whether codes were named and none of them has come so far. */
    boolean isNeverOn() {
        return !words.isEmpty() && !found;
    }

    private boolean plain(String word) {
        return switch (word.toLowerCase(Locale.ROOT)) {
            case "true", "on", "yes" -> true;
            case "false", "off", "no" -> false;
            default ->
                    number(word)
                            .filter(number -> number == 0 || number == 1)
                            .map(number -> number == 1)
                            .orElseThrow(() -> noPosition(word));
        };
    }

    private BadCell noPosition(String word) {
        return new BadCell(
                BadCell.quoted(word) + " is no position of a contact",
                "allowed are 0, 1, false, true, off, on, no and yes, or say which codes mean on:"
                        + " --column "
                        + key
                        + "=NAME:2,16");
    }

    private static Optional<Double> number(String word) {
        try {
            return Optional.of(Decimal.parse(word.toCharArray(), 0, word.length()));
        } catch (BadCell e) {
            return Optional.empty();
        }
    }
}
