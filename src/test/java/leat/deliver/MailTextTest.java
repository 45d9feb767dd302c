package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.Test;

class MailTextTest {

    private final MailText text =
            new MailText(
                    "Boatyard",
                    Phrases.in(Language.ENGLISH),
                    "leat@example.org",
                    List.of("shift@example.org"));

    /** A mail program that knows an id drops what comes under it again. */
    @Test
    void longest_ids_that_differ_only_at_their_end_stay_two() {
        String lost =
                "a".repeat(40)
                        + ".signal-missing.filtered.20260105T060101Z-123456/1234/undelivered/";
        String hall = lost + "b".repeat(39) + "1";
        String yard = lost + "b".repeat(39) + "2";

        assertThat(text.messageId(hall)).isNotEqualTo(text.messageId(yard)).hasSizeLessThan(900);
    }
}
