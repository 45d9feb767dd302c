package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;

/**
 * When something that comes once a day falls due. Each date of the site's calendar has one such
 * time, also the days on which the clocks change: where the clock skips it, it comes as much later,
 * where it shows it twice, the first time. Immutable.
 *
 * @param zone the site's time zone
 */
public record SiteCalendar(ZoneId zone) {

    public SiteCalendar {
        requireNonNull(zone, "zone");
    }

    /** The date at that time, microseconds UTC. */
    public LocalDate dateAt(long atMicros) {
        return Voice.instant(atMicros).atZone(zone).toLocalDate();
    }

    /** When what comes each day at a time falls due on a date, microseconds UTC. */
    public long dueMicros(LocalDate date, LocalTime time) {
        Instant due = date.atTime(time).atZone(zone).toInstant();
        return ChronoUnit.MICROS.between(Instant.EPOCH, due);
    }

    /** The first date whose time comes after {@code atMicros}, microseconds UTC. */
    public LocalDate nextDate(long atMicros, LocalTime time) {
        LocalDate today = dateAt(atMicros);
        return atMicros < dueMicros(today, time) ? today : today.plusDays(1);
    }
}
