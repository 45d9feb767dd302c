package leat.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneId;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShownTest {

    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin, 2026-01-05T06:00:31.9Z, 2026-01-05 07:00:31 +01:00",
        "Europe/Berlin, 2026-07-05T06:00:31Z, 2026-07-05 08:00:31 +02:00",
        "UTC, 2026-01-05T06:00:31Z, 2026-01-05 06:00:31 +00:00",
        "America/St_Johns, 2026-01-05T06:00:31Z, 2026-01-05 02:30:31 -03:30"
    })
    void a_time_is_shown_on_the_clock_of_the_site_as_messages_show_it(
            String zone, String instant, String shown) {
        long micros = Instant.parse(instant).toEpochMilli() * 1_000;

        assertThat(new Shown(ZoneId.of(zone), PressureUnit.PSI).time(micros)).isEqualTo(shown);
    }

    @Test
    void a_doubt_is_rounded_up_so_that_a_small_one_is_not_none() {
        Shown shown = new Shown(ZoneId.of("UTC"), PressureUnit.PSI);

        assertThat(shown.figure(Measurand.Unit.TIME, Figure.of(1.32, 0.051)))
                .contains("\u00b1 0.06");
        assertThat(shown.figure(Measurand.Unit.PRESSURE, Figure.of(99.7, 0.04)))
                .contains("\u00b1 0.1");
    }

    @Test
    void a_length_of_time_below_nothing_is_no_number() {
        Shown shown = new Shown(ZoneId.of("UTC"), PressureUnit.PSI);

        assertThat(shown.figure(Measurand.Unit.TIME, Figure.of(-0.07, 0.13))).isEqualTo("-");
        assertThat(shown.figure(Measurand.Unit.PRESSURE, Figure.of(-0.3))).isEqualTo("-0.3 psi");
    }
}
