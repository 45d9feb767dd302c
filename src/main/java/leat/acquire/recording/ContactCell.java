package leat.acquire.recording;

import java.util.Locale;

/** The position of a contact as loggers write it: a number, or a word. */
final class ContactCell {

    private ContactCell() {}

    /**
     * @throws BadCell when this is neither
     */
    static boolean isClosed(char[] buffer, int from, int end) {
        if (end - from == 1 && (buffer[from] == '0' || buffer[from] == '1')) {
            return buffer[from] == '1';
        }
        String word = new String(buffer, from, end - from);
        return switch (word.toLowerCase(Locale.ROOT)) {
            case "true", "on", "yes" -> true;
            case "false", "off", "no" -> false;
            default -> {
                try {
                    yield Decimal.parse(buffer, from, end - from) != 0;
                } catch (BadCell e) {
                    throw new BadCell(
                            BadCell.quoted(word) + " is no position of a contact",
                            "allowed are 0, 1, false, true, off, on, no and yes");
                }
            }
        };
    }
}
