package leat.words;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/**
 * Times as a narrow table and a short line have them: without a date those of today, without an
 * offset all.
 *
 * @param zone the site's
 * @param today there
 */
public record BriefTimes(ZoneId zone, LocalDate today) {

    private static final DateTimeFormatter CLOCK =
            DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);
    private static final DateTimeFormatter BOTH =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

    public static BriefTimes of(ZoneId zone, long nowMicros) {
        return new BriefTimes(zone, at(nowMicros, zone).toLocalDate());
    }

    /** Such as {@code 07:00}, or {@code 2026-01-04 07:00} of another day. */
    public String time(long micros) {
        return (isToday(micros) ? CLOCK : BOTH).format(at(micros, zone));
    }

    /** Such as {@code 07:00} of today, or the bare date of another day. */
    public String day(long micros) {
        ZonedDateTime at = at(micros, zone);
        return isToday(micros) ? CLOCK.format(at) : at.toLocalDate().toString();
    }

    /** What a person must know to read them. */
    public String note(Phrases phrases) {
        return phrases.say("cli.times", zone.getId(), today.toString());
    }

    private boolean isToday(long micros) {
        return at(micros, zone).toLocalDate().equals(today);
    }

    private static ZonedDateTime at(long micros, ZoneId zone) {
        return Instant.EPOCH.plus(micros, ChronoUnit.MICROS).atZone(zone);
    }
}
