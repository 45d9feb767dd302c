package leat.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.Optional;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import leat.diagnose.Diagnosis;
import leat.signal.PressureUnit;
import leat.words.Language;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.xml.sax.InputSource;

/** The reason on the page of a startup; pages are left in target/ to look at. */
class WhyPageTest {

    private static final Shown SHOWN = new Shown(ZoneId.of("Europe/London"), PressureUnit.PSI);

    private static String page(String scenario, Diagnosis why, Language language) {
        StartupView view = StartupPageTest.view(scenario, "jet-2", Optional.empty());
        return StartupPage.of(
                view.because(why, Optional.of("leat answer jet-2")), SHOWN.in(language));
    }

    private static int count(String page, String pattern) {
        return (int) Pattern.compile(pattern).matcher(page).results().count();
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void page_says_why_marks_the_curve_and_has_a_sheet_to_take_along(Language language)
            throws Exception {
        String page = page("worn-booster", Diagnoses.worn(), language);
        Files.writeString(Path.of("target/why-page-" + language.key() + ".html"), page);

        assertThat(count(page, "<circle class=\"reason\"")).isBetween(1, 2);
        assertThat(page)
                .contains("<rect class=\"weight\"", "class=\"box\"", "class=\"blank\"")
                .contains("leat answer jet-2 recovers", "leat answer jet-2 stays-low")
                .contains("4.2".replace('.', language == Language.GERMAN ? ',' : '.'));
        String main = page.substring(page.indexOf("<main>"), page.indexOf("</main>") + 7);
        assertThat(
                        DocumentBuilderFactory.newInstance()
                                .newDocumentBuilder()
                                .parse(new InputSource(new StringReader(main)))
                                .getElementsByTagName("li")
                                .getLength())
                .isGreaterThan(8);
        assertThat(
                        count(
                                page,
                                Pattern.quote(
                                        SHOWN.in(language).findings().caution().substring(0, 30))))
                .isEqualTo(1);
    }

    @Test
    void marks_of_the_inlet_stand_on_its_curve() throws IOException {
        String page = page("clogged-strainer", Diagnoses.weakSupply(), Language.ENGLISH);
        Files.writeString(Path.of("target/why-page-inlet.html"), page);

        assertThat(page).contains("inlet sags ");
    }

    @Test
    void page_of_a_sound_machine_sends_nobody() {
        String page = page("healthy", Diagnoses.healthy(), Language.ENGLISH);

        assertThat(page)
                .doesNotContain("class=\"sheet\"", "circle class=\"reason\"", "leat answer");
        assertThat(page).contains("<rect class=\"weight\"");
    }

    @Test
    void german_page_is_german_throughout() {
        String page = page("worn-booster", Diagnoses.worn(), Language.GERMAN);

        assertThat(page.replaceAll("<style>(?s:.*)</style>", "").replaceAll("<[^>]*>", " "))
                .contains("Start vom", "Der Lauf", "Gemeldet wurde", "Sekunden seit dem Start")
                .doesNotContain(
                        "Run of",
                        "measured",
                        "should",
                        "at least",
                        "boosted",
                        "inlet",
                        "seconds",
                        "usual",
                        "WARNING",
                        "What",
                        "rise ",
                        "level");
    }
}
