package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SpellingTest {

    @ParameterizedTest
    @CsvSource({"kitten, sitting, 3", "ab, ba, 1", "abc, abc, 0", "'', abc, 3", "flaw, lawn, 2"})
    void the_distance_counts_slips_of_the_finger(String from, String to, int slips) {
        assertThat(Spelling.distance(from, to)).isEqualTo(slips);
        assertThat(Spelling.distance(to, from)).isEqualTo(slips);
    }

    @Test
    void the_closest_word_wins() {
        assertThat(Spelling.closest("warnning", List.of("arm", "warning", "warning_clear")))
                .contains("warning");
    }

    @Test
    void dashes_blanks_and_capitals_are_no_slips() {
        assertThat(Spelling.closest("Keep-Samples", List.of("folder", "keep_samples")))
                .contains("keep_samples");
    }

    @Test
    void a_word_that_resembles_nothing_gets_no_suggestion() {
        assertThat(Spelling.closest("colour", List.of("folder", "host", "port"))).isEmpty();
        assertThat(Spelling.closest("x", List.of("h", "d"))).isEmpty();
    }
}
