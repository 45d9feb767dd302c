package leat.screen;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import leat.HostileText;
import leat.live.DaemonNow;
import leat.live.MachineNow;
import leat.live.SiteNow;
import leat.report.Columns;
import leat.report.Glyphs;
import leat.report.Shown;
import leat.signal.PressureUnit;
import leat.words.Language;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What stands on the screen, of the demo second by second and of a site that nobody watches. */
class PictureTest {

    private static final Shown ENGLISH = new Shown(ZoneOffset.UTC, PressureUnit.PSI);
    private static final Size USUAL = new Size(80, 30);

    @TempDir private static Path folder;
    private static List<SiteNow> demo;

    @BeforeAll
    static void live() throws IOException {
        demo = Lived.demo(folder);
    }

    private static Picture picture(Language language, Glyphs glyphs) {
        return new Picture("Boatyard", ENGLISH.in(language), glyphs);
    }

    private static String shown(SiteNow site, int chosen, Size size) {
        return picture(Language.ENGLISH, Glyphs.UNICODE).rows(site, chosen, size).stream()
                .map(Row::text)
                .collect(Collectors.joining("\n"));
    }

    /** After so many seconds of the demo. */
    private static SiteNow at(int second) {
        return demo.get(second - 1);
    }

    private static Stream<Arguments> faces() {
        return Stream.of(Language.values())
                .flatMap(l -> Stream.of(Glyphs.values()).map(g -> Arguments.of(l, g)));
    }

    @ParameterizedTest
    @MethodSource("faces")
    void no_frame_is_wider_or_taller_than_its_window(Language language, Glyphs glyphs) {
        Picture picture = picture(language, glyphs);
        List<SiteNow> sites =
                Stream.concat(
                                demo.stream(),
                                Stream.of(Lived.crowd(at(60), 40), Lived.stale(at(60), 90)))
                        .toList();
        for (int i = 0; i < sites.size(); i++) {
            int columns = 1 + i * 7 % 130;
            int lines = 1 + i * 5 % 60;
            for (Size size : List.of(new Size(columns, lines), new Size(40, 20), USUAL)) {
                SiteNow site = sites.get(i);
                List<Row> rows = picture.rows(site, i % site.machines().size(), size);

                assertThat(rows).as("%s at %s", size, i).hasSizeLessThanOrEqualTo(size.lines());
                assertThat(rows)
                        .allSatisfy(
                                row ->
                                        assertThat(Columns.of(row.text()))
                                                .as("%s of %s", row.text(), size)
                                                .isLessThanOrEqualTo(size.columns()));
            }
        }
    }

    @Test
    void curve_is_drawn_while_the_start_climbs() {
        String early = shown(at(6), 0, USUAL);
        String later = shown(at(9), 0, USUAL);

        assertThat(early).contains("jet-1  starting for", "Start at 06:00: ");
        assertThat(later).contains("Start at 06:00: ", "so far", "set level", "0 s");
        assertThat(dots(later)).isGreaterThan(dots(early));
        assertThat(shown(at(30), 0, USUAL)).contains("Start jet-1/1 at 06:00: ", "rise 1.");
    }

    private static long dots(String text) {
        return text.chars().filter(c -> c > 0x2800 && c <= 0x28ff).count();
    }

    @Test
    void each_gauge_says_what_it_should_show() {
        assertThat(shown(at(30), 0, USUAL))
                .containsPattern("inlet +4\\d\\.\\d psi .* at least 25\\.0 psi: in order")
                .containsPattern("boosted +9\\d\\.\\d psi .* 90\\.0 psi to 120\\.0 psi: in order");
        assertThat(shown(at(30), 1, USUAL))
                .containsPattern("boosted +7\\d\\.\\d psi .* below 80\\.0 psi: WARNING if it lasts")
                .containsPattern("boost +1\\.\\d+ times +below 2\\.00 times: WARNING if it lasts");
    }

    @Test
    void worst_alarm_stands_there_with_what_to_do_first_and_the_caution() {
        String text = shown(at(60), 1, USUAL);

        assertThat(text)
                .contains("WARNING no. ", "weak boost 1.7", "Worn booster likely", "Jet off")
                .contains("Before hands go to the line: stop the machine");
        assertThat(shown(at(60), 0, USUAL))
                .contains(">1 jet-1", " 2 jet-2", "WARNING boosted pressure low +1");
    }

    @Test
    void what_is_old_is_told_as_what_was() {
        SiteNow stale = Lived.stale(at(50), 300);

        assertThat(stale.daemon().state()).isEqualTo(DaemonNow.State.SILENT);
        assertThat(shown(stale, 1, USUAL))
                .contains("LEAT STORES NOTHING. All below is of 06:00, 5 min ago.")
                .containsPattern("boosted +silent +last \\d+\\.\\d psi, 5 min ago")
                .contains("was ")
                .doesNotContain("in order", "if it lasts", "\u2588");
    }

    @Test
    void colours_say_nothing_that_is_not_there_in_words() {
        for (Row row : picture(Language.ENGLISH, Glyphs.UNICODE).rows(at(60), 1, USUAL)) {
            for (Row.Piece piece : row.pieces()) {
                switch (piece.ink()) {
                    case WARNING, CRITICAL, ADVISORY ->
                            assertThat(row.text() + "WARNING".repeat(isContinued(row) ? 1 : 0))
                                    .contains(piece.ink().name());
                    case PLAIN, FAINT, STRONG -> {}
                }
            }
            assertThat(row.drawn(false)).isEqualTo(row.text());
        }
    }

    private static boolean isContinued(Row row) {
        return row.text().startsWith("   ");
    }

    @Test
    void of_many_machines_those_around_the_chosen_one_are_shown_and_the_rest_is_counted() {
        SiteNow crowd = Lived.crowd(at(60), 40);

        String text = shown(crowd, 20, USUAL);

        assertThat(text).contains(">  jet-21", "   jet-18", "34 more machines, ");
        assertThat(text.lines().filter(line -> line.contains("of them with")).count()).isOne();
    }

    @Test
    void window_that_is_too_small_says_so() {
        assertThat(shown(at(60), 0, new Size(25, 5))).isEqualTo("Too small a window");
    }

    @Test
    void hostile_text_does_not_drive_the_terminal() {
        Row row = Row.of("\u001b[2J" + HostileText.WHOLE);

        HostileText.assertHarmless(row.drawn(false));
    }

    @Test
    void machine_names_are_all_there_in_the_order_of_the_site() {
        assertThat(
                        IntStream.range(0, 2)
                                .mapToObj(i -> at(60).machines().get(i))
                                .map(MachineNow::name))
                .containsExactly("jet-1", "jet-2");
    }
}
