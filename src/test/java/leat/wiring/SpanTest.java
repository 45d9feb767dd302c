package leat.wiring;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Spans and pressures as a person types them. */
class SpanTest {

    @ParameterizedTest
    @ValueSource(strings = {"0..16 bar", " 0 .. 16 bar ", "0..16bar", "+0..16.0 bar"})
    void a_span_is_read_however_its_blanks_stand(String typed) {
        assertThat(Span.read(typed)).contains(new Span(0, 16, PressureUnit.BAR));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "200",
                "200 psi",
                "0..200",
                "0..200 kg",
                "200..0 psi",
                "5..5 psi",
                "0..9e9 psi",
                "-2..10 bar",
                "0..100000 psi",
                "0-200 psi",
                "0,5..16 bar",
                "0..200 psi x"
            })
    void what_is_no_span_of_a_water_line_is_none(String typed) {
        assertThat(Span.read(typed)).isEmpty();
    }

    @Test
    void what_is_believed_goes_a_tenth_beyond_and_never_below_a_vacuum() {
        assertThat(new Span(0, 100, PressureUnit.PSI).believed()).isEqualTo("[ -10 psi, 110 psi ]");
        assertThat(new Span(0, 16, PressureUnit.BAR).believed()).isEqualTo("[ -15 psi, 17.6 bar ]");
    }

    @Test
    void a_pressure_is_read_in_its_unit() {
        assertThat(TypedPressure.read("4.3 bar"))
                .contains(new TypedPressure(4.3, PressureUnit.BAR));
        assertThat(TypedPressure.read("-1psi").map(TypedPressure::psi)).contains(-1.0);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "62", "psi", "62 PSI", "62 psi psi", "NaN psi", "1e3 psi", "6,2 bar"})
    void what_is_no_pressure_is_none(String typed) {
        assertThat(TypedPressure.read(typed)).isEqualTo(Optional.empty());
    }
}
