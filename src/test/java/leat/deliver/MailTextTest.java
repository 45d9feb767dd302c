package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.mail.Session;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Properties;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import leat.store.Message;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

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

    @Test
    void plain_text_and_html_say_the_cause_and_how_to_answer() throws Exception {
        Diagnosis why = Changes.why(Changes.suspect(Cause.WORN_BOOSTER, 0.84, Check.JET_OFF));
        Message message =
                Changes.said(
                        new Wording(Changes.site(PressureUnit.PSI)),
                        new Changed(
                                "jet-1",
                                Changes.raised(Changes.weakBoost(Grade.WARNING, "")),
                                Optional.of(why)));

        MimeMessage mail = text.mail(Session.getInstance(new Properties()), message);

        MimeMultipart parts = (MimeMultipart) mail.getContent();
        assertThat(mail.getSubject()).endsWith("weak boost: worn booster likely, 84 %");
        assertThat((String) parts.getBodyPart(0).getContent())
                .contains(
                        "Cause: worn booster likely, 84 %.\nBecause: the pump gives out under load",
                        "leat answer jet-1 recovers");
        assertThat((String) parts.getBodyPart(1).getContent())
                .contains(
                        "<b>Cause:</b> worn booster likely, 84 %.",
                        "<b>Because:</b> the pump gives out under load",
                        "leat answer jet-1 recovers");
        assertThat(parts.getCount()).isEqualTo(2);
    }

    /** What a call looks like is left in target/mail-*.html to look at. */
    @ParameterizedTest
    @EnumSource(Language.class)
    void first_line_stands_once_and_largest_and_each_thing_in_a_paragraph_of_its_own(
            Language language) throws Exception {
        Diagnosis why = Changes.why(Changes.suspect(Cause.WORN_BOOSTER, 0.84, Check.JET_OFF));
        Message message =
                Changes.said(
                        new Wording(Changes.site(language, PressureUnit.PSI)),
                        new Changed(
                                "jet-1",
                                Changes.raised(Changes.weakBoost(Grade.WARNING, "")),
                                Optional.of(why)));
        String first = message.text().lines().findFirst().orElseThrow();

        String html = new MailHtml(language.key()).of(message, message.subject(), message.text());
        Files.writeString(Path.of("target/mail-" + language.key() + ".html"), html);

        assertThat(html).containsOnlyOnce(first).contains("font-weight:bold\">" + first + "</p>");
        assertThat(html.lines().filter(line -> line.startsWith("<p")))
                .hasSizeGreaterThan(7)
                .allMatch(line -> line.endsWith("</p>"));
    }
}
