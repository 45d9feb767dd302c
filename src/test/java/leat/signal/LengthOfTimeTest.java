package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LengthOfTimeTest {

    @ParameterizedTest
    @CsvSource({
        "90s, PT1M30S",
        "30min, PT30M",
        "1.5 h, PT1H30M",
        "' 8h ', PT8H",
        "3d, PT72H",
        "2w, PT336H",
        "0s, PT0S",
        "0.001s, PT0.001S",
        "999999w, PT167999832H"
    })
    void it_is_read_as_people_type_it(String words, Duration length) {
        assertThat(LengthOfTime.read(words)).contains(length);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "h",
                "8",
                "-8h",
                "+8h",
                "8 hours",
                "8H",
                "1e3s",
                "8,5h",
                "8h ago",
                "1000000s",
                "8  h"
            })
    void anything_else_is_none(String words) {
        assertThat(LengthOfTime.read(words)).isEmpty();
    }
}
