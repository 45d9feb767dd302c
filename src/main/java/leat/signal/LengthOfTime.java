package leat.signal;

import java.time.Duration;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A length of time as a person types it, such as {@code 30min} or {@code 1.5 h}. */
public final class LengthOfTime {

    private static final Pattern TYPED =
            Pattern.compile("([0-9]{1,6}(?:\\.[0-9]{1,3})?) ?(s|min|h|d|w)");

    private LengthOfTime() {}

    /** To the millisecond, zero or more; empty for what is no length of time. */
    public static Optional<Duration> read(String words) {
        Matcher matcher = TYPED.matcher(words.strip());
        if (!matcher.matches()) {
            return Optional.empty();
        }
        double millis = Double.parseDouble(matcher.group(1)) * unit(matcher.group(2)).toMillis();
        return Optional.of(Duration.ofMillis(Math.round(millis)));
    }

    private static Duration unit(String word) {
        return switch (word) {
            case "w" -> Duration.ofDays(7);
            case "d" -> Duration.ofDays(1);
            case "h" -> Duration.ofHours(1);
            case "min" -> Duration.ofMinutes(1);
            default -> Duration.ofSeconds(1);
        };
    }
}
