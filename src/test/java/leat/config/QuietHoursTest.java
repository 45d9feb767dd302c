package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** In Europe/Berlin the clocks went forward on 2026-03-29 and back on 2026-10-25, at 01:00 UTC. */
class QuietHoursTest {

    private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");

    @ParameterizedTest(name = "{0} at {1}: {2}")
    @CsvSource(
            textBlock =
                    """
                    22:00-06:00, 2026-01-05T20:59:59Z, false
                    22:00-06:00, 2026-01-05T21:00:00Z, true
                    22:00-06:00, 2026-01-06T04:59:59Z, true
                    22:00-06:00, 2026-01-06T05:00:00Z, false
                    12:00-13:00, 2026-01-06T10:59:59Z, false
                    12:00-13:00, 2026-01-06T11:00:00Z, true
                    12:00-13:00, 2026-01-06T12:00:00Z, false
                    22:00-06:00, 2026-03-28T21:00:00Z, true
                    22:00-06:00, 2026-03-29T03:59:59Z, true
                    22:00-06:00, 2026-03-29T04:00:00Z, false
                    22:00-06:00, 2026-10-24T19:59:59Z, false
                    22:00-06:00, 2026-10-24T20:00:00Z, true
                    22:00-06:00, 2026-10-25T04:59:59Z, true
                    22:00-06:00, 2026-10-25T05:00:00Z, false
                    """)
    void silence_follows_the_clock_of_the_site_through_both_clock_changes(
            String hours, Instant at, boolean quiet) {
        QuietHours quietHours = hours(hours);

        boolean holds = quietHours.holdAt(at, BERLIN);

        assertThat(holds).isEqualTo(quiet);
    }

    @Test
    void end_in_the_hour_that_comes_twice_ends_the_silence_once() {
        QuietHours untilHalfPastTwo = hours("22:00-02:30");

        Stream<Boolean> eachHalfHour =
                Stream.of(
                                "2026-10-25T00:29:59Z", // 02:29:59, the first time
                                "2026-10-25T00:30:00Z", // 02:30, the first time
                                "2026-10-25T01:15:00Z", // 02:15, the second time
                                "2026-10-25T01:30:00Z") // 02:30, the second time
                        .map(at -> untilHalfPastTwo.holdAt(Instant.parse(at), BERLIN));

        assertThat(eachHalfHour).containsExactly(true, false, false, false);
    }

    @Test
    void end_in_the_hour_that_is_skipped_ends_the_silence_an_hour_later() {
        QuietHours untilHalfPastTwo = hours("22:00-02:30");

        Stream<Boolean> night =
                Stream.of(
                                "2026-03-29T01:00:00Z", // 03:00 summer time, straight after 01:59
                                "2026-03-29T01:29:59Z", // 03:29:59
                                "2026-03-29T01:30:00Z") // 03:30
                        .map(at -> untilHalfPastTwo.holdAt(Instant.parse(at), BERLIN));

        assertThat(night).containsExactly(true, true, false);
    }

    private static QuietHours hours(String text) {
        return new QuietHours(
                LocalTime.parse(text.substring(0, 5)), LocalTime.parse(text.substring(6)));
    }
}
