package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.store.Message;
import org.junit.jupiter.api.Test;

class WordingTest {

    private final Wording wording = new Wording(Changes.site(PressureUnit.PSI));

    @Test
    void call_says_grade_machine_measured_limit_since_checks_and_caution() {
        Finding finding = Changes.weakBoost(Grade.WARNING, "inlet 41.5 psi, boosted 67.4 psi");

        Message message = Changes.said(wording, Changes.raised(finding));

        assertThat(message.id()).isEqualTo("jet-1.ratio.20260105T060101Z/1");
        assertThat(message.topic()).isEqualTo("jet-1/alarm/ratio");
        assertThat(message.subject()).isEqualTo("WARNING jet-1: weak boost, 1.62 times");
        assertThat(message.text())
                .isEqualTo(
                        """
                        WARNING jet-1: weak boost, 1.62 times (at least 2.00 times) since 07:00.
                        Boatyard, jet-1: plan it this shift.
                        Measured: boosted over inlet pressure 1.62 times.
                        Should be: at least 2.00 times.
                        Since: 2026-01-05 07:00:31 +01:00.
                        Gauges: inlet 44.5 psi, boosted 72.3 psi.
                        Also: inlet 41.5 psi, boosted 67.4 psi.
                        Check first:
                        1. Stop the intensifier for 10 s with the booster on: a level that recovers points to a worn
                           booster.
                        2. Level low and steady even then: compare the regulator or bypass setting.
                        3. Level wanders over seconds: listen at the coupling for slip.
                        Caution: Stop the machine, isolate water and electricity, lock out, and relieve pressure before
                           opening a line. The intensifier's high-pressure side can injure fatally. Follow the site's
                           procedure and local codes, and leave the work to qualified people. leat only reads; it is no
                           safety device and never replaces the machine's own trip.
                        Message jet-1.ratio.20260105T060101Z/1.""");
    }

    @Test
    void pressures_are_said_in_the_unit_of_the_site() {
        Finding finding =
                new Finding(
                        Rule.INLET,
                        Channel.INLET,
                        Grade.CRITICAL,
                        Changes.SINCE,
                        Changes.RAISED,
                        Quantity.PRESSURE_PSI,
                        -0.04,
                        5,
                        Sense.AT_LEAST,
                        Figure.of(-0.04),
                        Figure.of(12),
                        List.of(
                                new Remark(
                                        Remark.Kind.MORE,
                                        List.of(41.5, -2.5, 44.0),
                                        "inlet_sag_psi")));

        String psi = text(PressureUnit.PSI, finding);
        String bar = text(PressureUnit.BAR, finding);
        String kpa = text(PressureUnit.KPA, finding);

        assertThat(psi).contains("inlet pressure 0.0 psi", "at least 5.0 psi", "41.5 psi");
        assertThat(bar).contains("inlet pressure 0.00 bar", "at least 0.34 bar");
        assertThat(bar)
                .contains("inlet lost while running 2.86 bar, usually -0.17 bar, 3.03 bar more.");
        assertThat(kpa)
                .contains("inlet pressure 0 kPa", "at least 34 kPa", "lost while running 286 kPa");
    }

    @Test
    void times_have_one_decimal_and_signal_rules_name_their_channel() {
        Finding silent =
                Changes.finding(
                        Rule.SIGNAL_MISSING, Channel.INLET, Grade.WARNING, Quantity.TIME_SECONDS);

        Message message = Changes.said(wording, Changes.raised(silent));

        assertThat(message.topic()).isEqualTo("jet-1/alarm/signal-missing/inlet");
        assertThat(message.subject()).isEqualTo("WARNING jet-1: inlet channel silent, 41.5 s");
        assertThat(message.text())
                .contains("no good inlet reading for 41.5 s", "Should be: at most 5.0 s");
    }

    @Test
    void return_is_short_and_says_that_nobody_has_acknowledged() {
        Finding finding = Changes.weakBoost(Grade.WARNING, "");

        Message message =
                Changes.said(
                        wording,
                        Changes.change(
                                2,
                                AlarmEvent.RETURNED,
                                AlarmState.RETURNED_UNACKNOWLEDGED,
                                finding,
                                ""));

        assertThat(message.subject()).isEqualTo("back to normal jet-1: weak boost");
        assertThat(message.text())
                .isEqualTo(
                        """
                        Back to normal.
                        Boatyard, jet-1: weak boost, 2026-01-05 07:02:01 +01:00.
                        It was WARNING: boosted over inlet pressure 1.62 times, should be at least 2.00 times.
                        Gauges: inlet 44.5 psi, boosted 72.3 psi.
                        Since: 2026-01-05 07:00:31 +01:00.
                        Raised: 2026-01-05 07:01:01 +01:00.
                        Nobody has acknowledged it yet.
                        Check first: Does it hold? Compare the dial gauges with the readings at the next start.
                        Caution: Before any work: site's procedure, local codes, qualified people. leat is no safety device.
                        Message jet-1.ratio.20260105T060101Z/2.""");
    }

    @Test
    void acknowledgement_names_who_gave_it_and_whether_the_alarm_still_stands() {
        Finding finding = Changes.weakBoost(Grade.WARNING, "");

        Message standing =
                Changes.said(
                        wording,
                        Changes.change(
                                2,
                                AlarmEvent.ACKNOWLEDGED,
                                AlarmState.ACKNOWLEDGED,
                                finding,
                                "Ines"));
        Message gone =
                Changes.said(
                        wording,
                        Changes.change(
                                3, AlarmEvent.ACKNOWLEDGED, AlarmState.NORMAL, finding, "Ines"));

        assertThat(standing.text()).startsWith("Acknowledged by Ines.\n");
        assertThat(standing.text()).contains("It still stands.");
        assertThat(gone.text()).contains("It has returned to normal.");
    }

    @Test
    void control_characters_in_free_text_drive_no_terminal_and_forge_no_line() {
        Finding finding =
                Changes.weakBoost(Grade.WARNING, "inlet\nCRITICAL: forged\u001b[2J\u202e");

        Message message =
                Changes.said(
                        wording,
                        Changes.change(
                                2,
                                AlarmEvent.WORSENED,
                                AlarmState.UNACKNOWLEDGED,
                                finding,
                                "\u0007Ines\r"));

        String all = message.subject() + message.text().replace("\n", "") + message.json();
        assertThat(all.codePoints()).noneMatch(Character::isISOControl);
        assertThat(message.text().lines()).noneMatch(line -> line.startsWith("CRITICAL"));
        assertThat(message.text()).contains("inlet\\nCRITICAL: forged\\u{1b}[2J\\u{202e}");
        assertThat(message.json()).doesNotContain("\\u0007", "\\u001b", "\\n\\u");
    }

    @Test
    void one_long_word_stays_whole_and_ends() {
        Finding finding = Changes.weakBoost(Grade.WARNING, "x".repeat(300) + " y");

        Message message = Changes.said(wording, Changes.raised(finding));

        assertThat(message.text()).contains("x".repeat(300));
    }

    private static String text(PressureUnit unit, Finding finding) {
        return Changes.said(new Wording(Changes.site(unit)), Changes.raised(finding)).text();
    }
}
