package leat.cli;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;
import leat.signal.LengthOfTime;

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
                                        new CommandFailure.Expected(
                                                ExitCode.WRONG, "cli.no-time", option, words));
        return ChronoUnit.MICROS.between(Instant.EPOCH, instant);
    }

    private Optional<Instant> ago(String text) {
        String length = text.endsWith(" ago") ? text.substring(0, text.length() - 4) : text;
        return LengthOfTime.read(length).map(now::minus);
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
