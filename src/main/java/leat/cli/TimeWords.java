package leat.cli;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A time as a person types it: so long ago ({@code 2h}, {@code 3 d}), a local day or time of the
 * site, or ISO 8601 with its offset.
 *
 * @param zone of local times
 * @param now what "ago" counts from
 */
record TimeWords(ZoneId zone, Instant now) {

    static final String ALLOWED =
            "2h or 3d ago, a day 2026-01-05, a local time \"2026-01-05 06:00\", or with an offset"
                    + " 2026-01-05T06:00:00Z";

    /** The space that stands there in what leat prints. */
    private static final Pattern BEFORE_OFFSET = Pattern.compile(" (?=[+-][0-9]{2}:[0-9]{2}$)");

    private static final Pattern AGO =
            Pattern.compile("([0-9]{1,6}(?:\\.[0-9]{1,3})?) ?(s|min|h|d|w)(?: ago)?");

    /**
     * @return microseconds UTC
     */
    long micros(String option, String words) {
        String text = words.strip();
        Instant instant =
                ago(text)
                        .or(() -> read(text, t -> OffsetDateTime.parse(t).toInstant()))
                        .or(() -> read(text, t -> LocalDateTime.parse(t).atZone(zone).toInstant()))
                        .or(
                                () ->
                                        read(
                                                text,
                                                t ->
                                                        LocalDate.parse(t)
                                                                .atStartOfDay(zone)
                                                                .toInstant()))
                        .orElseThrow(
                                () ->
                                        new Trouble.Expected(
                                                Main.WRONG,
                                                option
                                                        + ": '"
                                                        + words
                                                        + "' is no time. Allowed are "
                                                        + ALLOWED
                                                        + "."));
        return ChronoUnit.MICROS.between(Instant.EPOCH, instant);
    }

    private Optional<Instant> ago(String text) {
        return span(text).map(now::minus);
    }

    /** A length of time as a person types it, such as {@code 30min} or {@code 8h}. */
    static Duration duration(String option, String words) {
        return span(words.strip())
                .filter(d -> !d.isZero())
                .orElseThrow(
                        () ->
                                new Trouble.Expected(
                                        Main.WRONG,
                                        option
                                                + ": '"
                                                + words
                                                + "' is no length of time. Allowed is a number"
                                                + " with s, min, h, d or w, such as 30min or 8h."));
    }

    private static Optional<Duration> span(String text) {
        Matcher matcher = AGO.matcher(text);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        Duration unit =
                switch (matcher.group(2)) {
                    case "w" -> Duration.ofDays(7);
                    case "d" -> Duration.ofDays(1);
                    case "h" -> Duration.ofHours(1);
                    case "min" -> Duration.ofMinutes(1);
                    default -> Duration.ofSeconds(1);
                };
        double millis = Double.parseDouble(matcher.group(1)) * unit.toMillis();
        return Optional.of(Duration.ofMillis(Math.round(millis)));
    }

    private static Optional<Instant> read(String text, Function<String, Instant> form) {
        try {
            String joined = BEFORE_OFFSET.matcher(text).replaceFirst("").replace(' ', 'T');
            return Optional.of(form.apply(joined))
                    .filter(i -> Math.abs(i.getEpochSecond()) < 1L << 38);
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }
}
