package leat.config;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import leat.rule.Limit;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;

class LimitWordsTest {

    @Test
    void limits_are_written_as_in_the_site_file() {
        Map<Limit, Double> limits =
                LimitWords.read(
                        List.of(
                                "rise.warning=4s",
                                "level.warning=75 psi",
                                "level.advisory=6 bar",
                                "rest.bleeds=no"));

        assertThat(limits)
                .containsEntry(Limit.RISE_WARNING, 4.0)
                .containsEntry(Limit.LEVEL_WARNING, 75.0)
                .containsEntry(Limit.REST_BLEEDS, 0.0)
                .containsKey(Limit.LEVEL_ADVISORY)
                .hasSize(4);
        assertThat(limits.get(Limit.LEVEL_ADVISORY)).isBetween(87.02, 87.03);
    }

    @Test
    void what_contradicts_the_defaults_may_suit_the_limits_of_a_site() {
        assertThat(LimitWords.read(List.of("rise.warning=15s")))
                .containsEntry(Limit.RISE_WARNING, 15.0);
        assertThat(LimitWords.print(Limit.RISE_WARNING, 15, PressureUnit.BAR)).isEqualTo("15 s");
    }

    @Test
    void everything_that_is_wrong_is_said_at_once() {
        assertThatThrownBy(
                        () ->
                                LimitWords.read(
                                        List.of("rise.waning=4s", "rise", "level.set=\u001b[31m")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("Did you mean rise.warning?")
                .hasMessageContaining("'rise' is not of the form");
        assertThatThrownBy(() -> LimitWords.read(List.of("rise.warning=4")))
                .hasMessageContaining("rise.warning")
                .hasMessageContaining("has no unit");
        assertThatThrownBy(() -> LimitWords.read(List.of("rise.warning=400 s")))
                .hasMessageContaining("out of range");
    }

    @Test
    void a_pressure_is_printed_in_the_unit_of_the_site() {
        double sevenBar = LimitWords.read(List.of("level.set=7bar")).get(Limit.LEVEL_SET);

        assertThat(LimitWords.print(Limit.LEVEL_SET, sevenBar, PressureUnit.BAR))
                .isEqualTo("7 bar");
        assertThat(LimitWords.print(Limit.LEVEL_SET, 80, PressureUnit.PSI)).isEqualTo("80 psi");
        assertThat(LimitWords.print(Limit.LEVEL_SET, 80, PressureUnit.KPA))
                .isEqualTo("551.581 kPa");
        assertThat(LimitWords.print(Limit.REST_FALLING, 14.5037738, PressureUnit.BAR))
                .isEqualTo("1 bar/s");
    }
}
