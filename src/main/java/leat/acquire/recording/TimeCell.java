package leat.acquire.recording;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.ZoneId;

/**
 * Times as they stand in a cell: ISO 8601 with Z or an offset, a local date and time in either
 * order, or plain seconds. The first row decides which; a later row of another form is refused.
 *
 * <p>Plain seconds below 1e9 count from {@link #ORIGIN}, above it from 1970. Digits beyond the
 * microsecond are cut off. Thread-confined.
 */
final class TimeCell {

    /** Where a recording that counts its own seconds is placed: 2000-01-01T00:00:00Z. */
    static final long ORIGIN = 946_684_800_000_000L;

    private static final double UNIX_FROM = 1e9;
    private static final double MOST_SECONDS = 1e10;
    private static final long SECOND = 1_000_000;

    /** The forms that a time can have. */
    enum Form {
        INSTANT,
        LOCAL,
        SECONDS,
        UNIX_SECONDS
    }

    private final LocalTimes local;
    private Form form;
    private int lastDate;
    private long lastDay;
    private long previous = Long.MIN_VALUE;
    private char[] text = {};
    private int at;
    private int end;

    TimeCell(ZoneId zone) {
        local = new LocalTimes(zone);
    }

    /** The form of the first row. */
    boolean isOf(Form wanted) {
        return form == wanted;
    }

    /**
     * Reads one cell; rows come in the order of the file.
     *
     * @return microseconds UTC
     * @throws BadCell when this is no time, or one of another form than the first
     */
    long parse(char[] cell, int from, int length) {
        text = cell;
        at = from;
        end = from + length;
        try {
            previous = dated(from, length);
            return previous;
        } catch (DateTimeException | NoDigit e) {
            throw wrong(from, length);
        }
    }

    /** A digit was expected. */
    private static final class NoDigit extends RuntimeException {

        private static final long serialVersionUID = 1;

        NoDigit() {
            super("", null, false, false);
        }
    }

    private long dated(int from, int length) {
        if (isDate(4, 2, 2, '-')) {
            int year = digits(4);
            int month = digits2After();
            int day = digits2After();
            return clock(day(year, month, day), from, length);
        }
        if (isDate(2, 2, 4, '.')) {
            int day = digits(2);
            int month = digits2After();
            at++;
            int year = digits(4);
            return clock(day(year, month, day), from, length);
        }
        if (isYearOutOfTheOrdinary(from)) {
            return IsoTime.parse(new String(text, from, length))
                    .orElseThrow(() -> wrong(from, length));
        }
        return seconds(from, length);
    }

    private boolean isYearOutOfTheOrdinary(int from) {
        return end - from > 12 && text[end - 1] == 'Z';
    }

    private boolean isDate(int first, int second, int third, char mark) {
        int a = at + first;
        int b = a + 1 + second;
        return b + third < end && text[a] == mark && text[b] == mark;
    }

    private int digits2After() {
        at++;
        return digits(2);
    }

    private int digits(int count) {
        int value = 0;
        for (int i = 0; i < count; i++) {
            char c = at < end ? text[at] : ' ';
            if (c < '0' || c > '9') {
                throw new NoDigit();
            }
            value = value * 10 + (c - '0');
            at++;
        }
        return value;
    }

    private long day(int year, int month, int day) {
        int date = (year * 100 + month) * 100 + day;
        if (date != lastDate) {
            lastDay = LocalDate.of(year, month, day).toEpochDay();
            lastDate = date;
        }
        return lastDay;
    }

    private long clock(long day, int from, int length) {
        if (at >= end || (text[at] != 'T' && text[at] != ' ')) {
            throw wrong(from, length);
        }
        int hour = digits2After();
        require(at < end && text[at] == ':', from, length);
        int minute = digits2After();
        int second = 0;
        long fraction = 0;
        if (at < end && text[at] == ':') {
            second = digits2After();
            fraction = fraction();
        }
        require(hour < 24 && minute < 60 && second < 60, from, length);
        long micros = ((day * 24 + hour) * 60 + minute) * 60 * SECOND + second * SECOND + fraction;
        if (at == end) {
            become(Form.LOCAL, from, length);
            return local.toUtc(micros, previous);
        }
        become(Form.INSTANT, from, length);
        return micros - offset(from, length);
    }

    private long fraction() {
        if (at >= end || (text[at] != '.' && text[at] != ',')) {
            return 0;
        }
        at++;
        long micros = 0;
        int count = 0;
        while (at < end && text[at] >= '0' && text[at] <= '9') {
            micros = count < 6 ? micros * 10 + (text[at] - '0') : micros;
            count++;
            at++;
        }
        for (; count < 6; count++) {
            micros *= 10;
        }
        return micros;
    }

    private long offset(int from, int length) {
        if (text[at] == 'Z' && at + 1 == end) {
            return 0;
        }
        if (text[at] == ' ') {
            at++;
        }
        require(at < end && (text[at] == '+' || text[at] == '-'), from, length);
        int sign = text[at] == '-' ? -1 : 1;
        int hours = digits2After();
        int minutes = 0;
        if (at < end) {
            at += text[at] == ':' ? 1 : 0;
            minutes = digits(2);
        }
        require(at == end && hours <= 18 && minutes < 60, from, length);
        return sign * (hours * 60L + minutes) * 60 * SECOND;
    }

    private long seconds(int from, int length) {
        double seconds;
        try {
            seconds = Decimal.parse(text, from, length);
        } catch (BadCell e) {
            throw wrong(from, length);
        }
        if (!(Math.abs(seconds) < MOST_SECONDS)) {
            throw new BadCell(
                    "time " + BadCell.quoted(new String(text, from, length)) + " is too large",
                    "a plain number is read as seconds, not as ms");
        }
        if (form == null) {
            form = seconds >= UNIX_FROM ? Form.UNIX_SECONDS : Form.SECONDS;
        }
        require(form == Form.SECONDS || form == Form.UNIX_SECONDS, from, length);
        return (form == Form.SECONDS ? ORIGIN : 0) + Math.round(seconds * SECOND);
    }

    private void become(Form found, int from, int length) {
        if (form == null) {
            form = found;
        }
        require(form == found, from, length);
    }

    private void require(boolean holds, int from, int length) {
        if (!holds) {
            throw wrong(from, length);
        }
    }

    private BadCell wrong(int from, int length) {
        String cell = BadCell.quoted(new String(text, from, length));
        return form == null
                ? new BadCell("time " + cell + " cannot be read", forms())
                : new BadCell(
                        "time " + cell + " cannot be read",
                        "allowed is the form of the first row: " + sample());
    }

    private static String forms() {
        return "allowed are seconds (12.05), ISO 8601 (2026-01-05T06:00:00.050Z) and local times"
                + " (2026-01-05 06:00:00.050, 05.01.2026 06:00:00,05)";
    }

    private String sample() {
        return switch (form) {
            case INSTANT -> "2026-01-05T06:00:00.050Z";
            case LOCAL -> "2026-01-05 06:00:00.050";
            case SECONDS -> "12.05";
            case UNIX_SECONDS -> "1767592800.05";
        };
    }
}
