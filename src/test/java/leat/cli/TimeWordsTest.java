package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TimeWordsTest {

    private static final TimeWords WORDS =
            new TimeWords(ZoneId.of("Europe/Berlin"), Instant.parse("2026-07-01T12:00:00Z"));

    @ParameterizedTest
    @CsvSource({
        "2h,2026-07-01T10:00:00Z",
        "3 d,2026-06-28T12:00:00Z",
        "1.5 h ago,2026-07-01T10:30:00Z",
        "90s,2026-07-01T11:58:30Z",
        "10 min,2026-07-01T11:50:00Z",
        "1w,2026-06-24T12:00:00Z",
        "2026-01-05,2026-01-04T23:00:00Z",
        "2026-07-05,2026-07-04T22:00:00Z",
        "2026-01-05 06:00,2026-01-05T05:00:00Z",
        "2026-01-05T06:00:00.5,2026-01-05T05:00:00.5Z",
        "2026-01-05T06:00:00Z,2026-01-05T06:00:00Z",
        "2026-01-05 06:00:00+02:00,2026-01-05T04:00:00Z",
        "2026-01-05 06:00:00 +02:00,2026-01-05T04:00:00Z"
    })
    void times_are_read_as_people_type_them(String words, String instant) {
        assertThat(WORDS.micros("--since", words))
                .isEqualTo(Instant.parse(instant).toEpochMilli() * 1_000);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "noon", "2m", "-2h", "2026-02-30", "+999999999-01-01", "06:00"})
    void what_is_no_time_is_refused_with_what_is_allowed(String words) {
        assertThatThrownBy(() -> WORDS.micros("--until", words))
                .isInstanceOf(CommandFailure.Expected.class)
                .hasMessageStartingWith("--until: '" + words + "' is no time. Allowed are 2h");
    }

    @Test
    void a_startup_number_is_told_from_a_file() {
        assertThat(StartupNumber.of("jet-1/17").orElseThrow().number()).isEqualTo(17);
        assertThat(StartupNumber.of("17").orElseThrow().machine()).isEmpty();
        assertThat(StartupNumber.of("jet-1.csv")).isEmpty();
        assertThat(StartupNumber.of("data/jet/17")).isEmpty();
        assertThat(StartupNumber.of("jet-1/0")).isEmpty();
    }
}
