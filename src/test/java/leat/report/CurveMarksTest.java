package leat.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Feature;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;

/**
 * A start that fills for 1 s, climbs from 40 to 100 psi in 3 s more, stands, and drops to 76 psi as
 * strokes begin at 8 s; the inlet sags from 45 to 27 psi.
 */
class CurveMarksTest {

    private static final Shown SHOWN = new Shown(ZoneOffset.UTC, PressureUnit.PSI);

    private static Startup startup() {
        return new Startup(0, 15_000_000, java.util.Map.of(), List.of(), true)
                .with(Measurand.BASE, Figure.of(0))
                .with(Measurand.TOP, Figure.of(100))
                .with(Measurand.UNLOADED, Figure.of(100))
                .with(Measurand.LOADED, Figure.of(76))
                .with(Measurand.DROP, Figure.of(24))
                .with(Measurand.PEAK_DROP, Figure.of(24))
                .with(Measurand.START_TO_90, Figure.of(3.5))
                .with(Measurand.RISE_FROM_INLET, Figure.of(2.4))
                .with(Measurand.BOOST_RATE, Figure.of(20))
                .with(Measurand.INLET_SAG, Figure.of(18));
    }

    private static Trace boosted() {
        Trace.Builder trace = new Trace.Builder();
        for (int i = -60; i <= 300; i++) {
            double second = i / 20.0;
            double filled = Math.min(40, 40 * Math.max(0, second));
            double climbed = Math.min(60, 20 * Math.max(0, second - 1));
            trace.add(second, second < 8 ? filled + climbed : 76);
        }
        return trace.build();
    }

    private static Trace inlet() {
        Trace.Builder trace = new Trace.Builder();
        for (int i = -60; i <= 300; i++) {
            trace.add(i / 20.0, i < 0 ? 45 : 27);
        }
        return trace.build();
    }

    private static List<CurveMark> marks(Reason... reasons) {
        Diagnosis why =
                new Diagnosis(
                        List.of(
                                new Suspect(
                                        Cause.WORN_BOOSTER,
                                        1,
                                        List.of(reasons),
                                        List.of(),
                                        Optional.empty())),
                        1,
                        0,
                        List.of());
        return new CurveMarks(
                        startup(), inlet(), boosted(), Optional.empty(), Optional.empty(), SHOWN)
                .of(why);
    }

    @Test
    void drop_is_marked_where_the_strokes_begin_with_what_this_start_shows() {
        CurveMark mark = marks(Diagnoses.reason(Feature.DROP, 22.5, 4.2, 3)).get(0);

        assertThat(mark.second()).isEqualTo(8);
        assertThat(mark.curve()).isEqualTo(Channel.BOOSTED);
        assertThat(mark.text()).isEqualTo("drops 24.0 psi when strokes begin, usual 4.2 psi");
    }

    @Test
    void drop_from_the_peak_is_marked_where_half_of_it_is_lost() {
        CurveMark mark = marks(Diagnoses.reason(Feature.PEAK_DROP, 21.5, 6, 3)).get(0);

        assertThat(mark.second()).isEqualTo(8);
        assertThat(mark.text()).isEqualTo("falls 24.0 psi from its peak, usual 6.0 psi");
    }

    @Test
    void slow_climb_is_marked_where_it_leaves_the_inlet_pressure_with_how_many_times_slower() {
        CurveMark mark = marks(Diagnoses.reason(Feature.BOOST_RATE, 20, 120, 3)).get(0);

        assertThat(mark.second()).isBetween(1.0, 1.2);
        assertThat(mark.psi()).isBetween(38.0, 46.0);
        assertThat(mark.text()).isEqualTo("climbs 6 x slower from here");
    }

    @Test
    void sag_is_marked_in_the_curve_of_the_inlet() {
        CurveMark mark = marks(Diagnoses.reason(Feature.INLET_SAG, 18, 3.5, 3)).get(0);

        assertThat(mark.curve()).isEqualTo(Channel.INLET);
        assertThat(mark.psi()).isEqualTo(27);
    }

    @Test
    void at_most_two_are_marked_and_none_that_this_start_does_not_show() {
        List<CurveMark> marks =
                marks(
                        Diagnoses.reason(Feature.UNLOADED, 80, 101, 5),
                        Diagnoses.reason(Feature.DROP, 22.5, 4.2, 3),
                        Diagnoses.reason(Feature.INLET_SAG, 18, 3.5, 2),
                        Diagnoses.reason(Feature.BOOST_RATE, 20, 120, 1));

        assertThat(marks)
                .extracting(CurveMark::text)
                .containsExactly(
                        "drops 24.0 psi when strokes begin, usual 4.2 psi",
                        "inlet sags 18.0 psi, usual 3.5 psi");
    }

    @Test
    void where_no_curve_is_kept_nothing_is_marked() {
        Trace none = new Trace.Builder().build();

        assertThat(
                        new CurveMarks(
                                        startup(),
                                        none,
                                        none,
                                        Optional.empty(),
                                        Optional.empty(),
                                        SHOWN)
                                .of(Diagnoses.worn()))
                .isEmpty();
    }
}
