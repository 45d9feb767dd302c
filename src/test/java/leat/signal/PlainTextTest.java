package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

class PlainTextTest {

    @Test
    void words_in_any_language_stay_as_they_are() {
        String words = "Pumpe für Düse 3 – 水 ok \uD83D\uDE00";

        assertThat(PlainText.harmless(words)).isEqualTo(words);
    }

    @Test
    void control_characters_are_written_out() {
        String nasty = "a\nb\rc\td\u001b[2Je\u0000f\u202eg\u2028h\u0085i";

        assertThat(PlainText.harmless(nasty))
                .isEqualTo("a\\nb\\rc\\td\\u{1b}[2Je\\u{0}f\\u{202e}g\\u{2028}h\\u{85}i");
    }

    @Test
    void long_text_is_cut_to_the_length_asked_for() {
        assertThat(PlainText.harmless("x".repeat(100), 80)).isEqualTo("x".repeat(77) + "...");
        assertThat(PlainText.harmless("x".repeat(80), 80)).isEqualTo("x".repeat(80));
        assertThat(PlainText.harmless("abcdef", 0)).hasSizeLessThanOrEqualTo(3);
    }

    @Test
    void no_text_at_all_leaves_a_control_character_or_half_a_pair() {
        Random random = new Random(20260105);
        for (int run = 0; run < 2000; run++) {
            StringBuilder text = new StringBuilder();
            for (int i = random.nextInt(40); i >= 0; i--) {
                text.append((char) random.nextInt(0x10000));
            }

            String harmless = PlainText.harmless(text.toString(), 1 + random.nextInt(60));

            assertThat(harmless.codePoints())
                    .as("seed 20260105, run %d", run)
                    .noneMatch(Character::isISOControl)
                    .noneMatch(c -> Character.getType(c) == Character.SURROGATE);
        }
    }
}
