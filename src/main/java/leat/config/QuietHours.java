package leat.config;

import static java.util.Objects.requireNonNull;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;

/**
 * The hours of each day in which a route is silent, on the clock of the site. Over midnight where
 * the end is not after the begin. On the days on which the clocks change they begin and end when
 * the clock first shows so, and where it skips that time as much later: each night has one silence,
 * which may be an hour longer or shorter. Immutable.
 *
 * @param from when the silence begins
 * @param to when it ends; not {@code from}
 */
public record QuietHours(LocalTime from, LocalTime to) {

    public QuietHours {
        requireNonNull(from, "from");
        requireNonNull(to, "to");
        if (from.equals(to)) {
            throw new IllegalArgumentException("quiet from " + from + " to " + to);
        }
    }

    /** Whether the silence holds; its begin belongs to it, its end does not. */
    public boolean holdAt(Instant at, ZoneId zone) {
        LocalDate today = at.atZone(zone).toLocalDate();
        return isInNightOf(today.minusDays(1), at, zone) || isInNightOf(today, at, zone);
    }

    private boolean isInNightOf(LocalDate date, Instant at, ZoneId zone) {
        Instant begin = date.atTime(from).atZone(zone).toInstant();
        LocalDate last = to.isAfter(from) ? date : date.plusDays(1);
        return !at.isBefore(begin) && at.isBefore(last.atTime(to).atZone(zone).toInstant());
    }
}
