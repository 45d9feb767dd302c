package leat.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.signal.Quality;
import leat.signal.Reading;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TextPlotTest {

    private static final int COLUMNS = 20;

    private static Sketch sketch(double from, double to) {
        Sketch sketch = new Sketch(0, COLUMNS - 1, COLUMNS);
        for (int i = 0; i < COLUMNS; i++) {
            sketch.add(Reading.good(Channel.BOOSTED, i, from + (to - from) * i / (COLUMNS - 1)));
        }
        return sketch;
    }

    @Test
    void a_rise_climbs_from_the_lower_left_to_the_upper_right() {
        List<String> lines =
                new TextPlot(sketch(40, 40), sketch(0, 100), Glyphs.ASCII, PressureUnit.PSI)
                        .limit(120, "high")
                        .lines();

        assertThat(lines).hasSize(12);
        assertThat(lines.get(0)).endsWith("-------------------- high");
        assertThat(lines.get(2).indexOf('#')).isGreaterThan(20);
        assertThat(lines.get(11).indexOf('#')).isLessThan(12);
        assertThat(lines.get(11)).startsWith("     0 +");
        assertThat(String.join("", lines)).contains("o o");
    }

    @Test
    void braille_keeps_two_columns_in_a_character_and_every_column_is_joined_to_the_next() {
        List<String> lines =
                new TextPlot(sketch(40, 40), sketch(0, 100), Glyphs.UNICODE, PressureUnit.BAR)
                        .lines();

        assertThat(lines).allMatch(line -> line.chars().anyMatch(c -> c > 0x2800 && c < 0x2900));
        assertThat(lines.get(0).length()).isLessThanOrEqualTo(8 + COLUMNS / 2 + 1);
        assertThat(lines.get(11)).startsWith("     0 ");
    }

    @Test
    void where_nothing_was_read_nothing_is_drawn() {
        Sketch empty = new Sketch(0, 9, 10);
        empty.add(Reading.bad(Channel.BOOSTED, 3, Quality.LOOP_BROKEN));
        empty.add(Reading.good(Channel.BOOSTED, 10, 50));

        List<String> lines = new TextPlot(empty, empty, Glyphs.ASCII, PressureUnit.PSI).lines();

        assertThat(String.join("", lines)).doesNotContain("#", "o", "NaN", "Infinity");
        assertThat(empty.line("_#", 100)).isEqualTo(" ".repeat(10));
    }

    @Test
    void a_line_of_a_curve_shows_its_height_against_a_level() {
        assertThat(sketch(0, 100).line("0123456789", 100)).isEqualTo("00112233445566778899");
        assertThat(sketch(40, 40).line("0123456789", 100)).isEqualTo("4".repeat(20));
    }

    @ParameterizedTest
    @CsvSource({"PSI, 100", "BAR, 6", "KPA, 600"})
    void the_axis_is_labelled_up_to_its_top_and_no_further_in_any_unit(
            PressureUnit unit, String highest) {
        List<String> lines =
                new TextPlot(sketch(40, 40), sketch(0, 100), Glyphs.ASCII, unit).lines();

        assertThat(lines)
                .extracting(line -> line.substring(0, 6).strip())
                .filteredOn(label -> !label.isEmpty())
                .startsWith(highest)
                .endsWith("0");
    }

    @Test
    void words_stand_beside_their_point_and_cover_no_curve() {
        TextPlot bare = new TextPlot(ramp(), ramp(), Glyphs.ASCII, PressureUnit.PSI);
        TextPlot noted =
                new TextPlot(ramp(), ramp(), Glyphs.ASCII, PressureUnit.PSI)
                        .note(0.5, 50, "slower from here")
                        .note(0.5, 50, "and again");

        List<String> before = bare.lines();
        List<String> after = noted.lines();

        assertThat(String.join("\n", after)).contains("<- slower from here", "and again");
        for (int row = 0; row < before.size(); row++) {
            for (int i = 0; i < before.get(row).length(); i++) {
                if ("#o".indexOf(before.get(row).charAt(i)) >= 0) {
                    assertThat(after.get(row).charAt(i)).isEqualTo(before.get(row).charAt(i));
                }
            }
        }
    }

    @Test
    void words_without_room_are_left_out() {
        List<String> lines =
                new TextPlot(sketch(40, 40), sketch(0, 100), Glyphs.ASCII, PressureUnit.PSI)
                        .note(0.5, 50, "much too long for a plot of twenty columns")
                        .lines();

        assertThat(String.join("\n", lines)).doesNotContain("too long");
    }

    private static Sketch ramp() {
        Sketch sketch = new Sketch(0, 59, 60);
        for (int i = 0; i < 60; i++) {
            sketch.add(Reading.good(Channel.BOOSTED, i, 100.0 * i / 59));
        }
        return sketch;
    }
}
