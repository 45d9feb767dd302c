package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import leat.signal.ClockStep;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ClockStepWordsTest {

    private static long micros(String time) {
        return Instant.parse(time).toEpochMilli() * 1_000;
    }

    /** The first is a computer without a clock battery that has found the time. */
    @ParameterizedTest
    @CsvSource({
        "1970-01-01T00:01:00.179Z, 2026-01-05T06:00:00Z, 'forward by 20458 d'",
        "2026-01-05T06:00:00Z, 2026-01-05T08:00:00Z, 'forward by 2.0 h'",
        "2026-01-05T06:00:00Z, 2026-01-05T05:30:00Z, 'back by 30 min'",
        "2026-01-05T06:00:00Z, 2026-01-05T05:59:57.6Z, 'back by 2.4 s'",
    })
    void a_step_is_said_with_its_direction_and_both_times(String from, String at, String far) {
        String said = ClockStepWords.of(new ClockStep(micros(at), micros(from)));

        assertThat(said)
                .isEqualTo(
                        far
                                + ", from "
                                + from.replaceFirst("\\.\\d+", "")
                                + " to "
                                + at.replaceFirst("\\.\\d+", ""));
    }
}
