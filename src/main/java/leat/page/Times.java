package leat.page;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import leat.words.BriefTimes;

/**
 * Times on the page.
 *
 * @param zone the site's
 * @param nowMicros the time of the look, microseconds UTC
 */
record Times(ZoneId zone, long nowMicros) {

    private static final DateTimeFormatter EXACT =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss xxx", Locale.ROOT);

    /** Without a date those of today. */
    String brief(long micros) {
        return BriefTimes.of(zone, nowMicros).time(micros);
    }

    /** To the second, with its offset. */
    String now() {
        return EXACT.format(Instant.EPOCH.plus(nowMicros, ChronoUnit.MICROS).atZone(zone));
    }

    double secondsSince(long micros) {
        return Math.max(0, (nowMicros - micros) / 1e6);
    }
}
