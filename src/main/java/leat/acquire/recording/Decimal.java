package leat.acquire.recording;

/**
 * Numbers as they stand in a cell: digits with a point or a comma, and an exponent perhaps. The
 * result is the double nearest to what is written, so that what {@link Double#toString} wrote comes
 * back to the bit.
 */
final class Decimal {

    private static final double[] EXACT_POWERS = {
        1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
        1e17, 1e18, 1e19, 1e20, 1e21, 1e22
    };

    private static final int DIGITS_THAT_FIT = 15;

    private Decimal() {}

    /**
     * @throws BadCell when this is no number
     */
    static double parse(char[] text, int from, int length) {
        int end = from + length;
        int i = from;
        boolean negative = false;
        if (i < end && (text[i] == '-' || text[i] == '+')) {
            negative = text[i++] == '-';
        }
        long digits = 0;
        int count = 0;
        int significant = 0;
        int scale = 0;
        boolean afterMark = false;
        for (; i < end; i++) {
            char c = text[i];
            if (c >= '0' && c <= '9') {
                count++;
                if (significant > 0 || c != '0') {
                    significant++;
                }
                if (significant <= DIGITS_THAT_FIT) {
                    digits = digits * 10 + (c - '0');
                }
                scale += afterMark ? 1 : 0;
            } else if ((c == '.' || c == ',') && !afterMark) {
                afterMark = true;
            } else {
                break;
            }
        }
        if (count == 0) {
            throw noNumber(text, from, length);
        }
        if (i == end && significant <= DIGITS_THAT_FIT && scale < EXACT_POWERS.length) {
            double value = digits / EXACT_POWERS[scale]; // both exact: rounded once
            return negative ? -value : value;
        }
        requireExponentOrEnd(text, i, end, from, length);
        return Double.parseDouble(new String(text, from, length).replace(',', '.'));
    }

    private static void requireExponentOrEnd(char[] text, int at, int end, int from, int length) {
        if (at == end) {
            return;
        }
        int i = at;
        if (text[i] != 'e' && text[i] != 'E') {
            throw noNumber(text, from, length);
        }
        i++;
        if (i < end && (text[i] == '-' || text[i] == '+')) {
            i++;
        }
        if (i == end) {
            throw noNumber(text, from, length);
        }
        for (; i < end; i++) {
            if (text[i] < '0' || text[i] > '9') {
                throw noNumber(text, from, length);
            }
        }
    }

    private static BadCell noNumber(char[] text, int from, int length) {
        return new BadCell(
                BadCell.quoted(new String(text, from, length)) + " is no number",
                "allowed is a number such as 41.2, or nothing where there is no reading");
    }
}
