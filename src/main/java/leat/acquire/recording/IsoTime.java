package leat.acquire.recording;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.temporal.ChronoUnit;
import java.util.OptionalLong;

/** Times in leat's own recordings: ISO 8601 in UTC with six decimals, for any microsecond. */
final class IsoTime {

    private static final DateTimeFormatter FORM =
            new DateTimeFormatterBuilder().appendInstant(6).toFormatter();

    private static final long MICROS_PER_SECOND = 1_000_000;

    private IsoTime() {}

    static String text(long micros) {
        return FORM.format(Instant.EPOCH.plus(micros, ChronoUnit.MICROS));
    }

    /** Empty when this is no such time, or one that microseconds cannot count. */
    static OptionalLong parse(String text) {
        try {
            Instant instant = Instant.parse(text);
            long second = instant.getEpochSecond();
            long micros = instant.getNano() / 1_000;
            return second < 0 && micros > 0 // so that the very first microsecond does not overflow
                    ? OptionalLong.of(micros(second + 1, micros - MICROS_PER_SECOND))
                    : OptionalLong.of(micros(second, micros));
        } catch (DateTimeException | ArithmeticException e) {
            return OptionalLong.empty();
        }
    }

    private static long micros(long seconds, long more) {
        return Math.addExact(Math.multiplyExact(seconds, MICROS_PER_SECOND), more);
    }
}
