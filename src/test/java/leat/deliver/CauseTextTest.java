package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Suspect;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.store.Message;
import leat.words.Language;
import org.junit.jupiter.api.Test;

/** What a message says of the cause. */
class CauseTextTest {

    private static final Finding WEAK_BOOST = Changes.weakBoost(Grade.WARNING, "");
    private static final String FIXED_CHECK = "1. Stop the intensifier for 10 s";

    private final Wording wording = new Wording(Changes.site(PressureUnit.PSI));

    private static Suspect bare(Cause cause, double weight) {
        return new Suspect(cause, weight, List.of(), List.of(), Optional.empty());
    }

    private static Suspect worn(double weight) {
        return Changes.suspect(Cause.WORN_BOOSTER, weight, Check.JET_OFF);
    }

    private Message call(Finding finding, Suspect... suspects) {
        return Changes.said(wording, changed(finding, suspects));
    }

    private static Changed changed(Finding finding, Suspect... suspects) {
        return new Changed("jet-1", Changes.raised(finding), Optional.of(Changes.why(suspects)));
    }

    @Test
    void call_names_the_cause_what_speaks_for_it_and_the_check_that_decides() {
        Message call = call(WEAK_BOOST, worn(0.84), bare(Cause.SET_LOW, 0.12));

        assertThat(call.subject())
                .isEqualTo("WARNING jet-1: weak boost: worn booster likely, 84 %");
        assertThat(call.text())
                .startsWith(
                        """
                        WARNING jet-1: weak boost, 1.62 times (at least 2.00 times) since 07:00. \
                        Worn booster likely, 84 %. Jet off, booster on for 10 s: does the level recover?
                        Boatyard, jet-1: plan it this shift.
                        Cause: worn booster likely, 84 %.
                        Because: the pump gives out under load: drop when strokes begin 22.5 psi, usual 4.2 psi; the booster
                           adds little to the inlet: boosted over inlet 1.62, usual 2.40 (from 4 starts, compared with its
                           own 12).
                        Measured: boosted over inlet pressure 1.62 times.
                        """)
                .contains(
                        """

                        Check first: With the jet off,""")
                .contains(
                        """

                        Then tell leat what you saw: leat answer jet-1 recovers, or: leat answer jet-1 stays-low
                        Caution: Stop the machine,""")
                .doesNotContain(FIXED_CHECK);
    }

    @Test
    void second_cause_is_named_from_a_quarter_on() {
        Message call = call(WEAK_BOOST, worn(0.55), bare(Cause.SET_LOW, 0.25));

        assertThat(call.text())
                .contains("Cause: perhaps worn booster, 55 %; or regulator set too low, 25 %.\n");
        assertThat(call(WEAK_BOOST, worn(0.55), bare(Cause.UNKNOWN, 0.3)).text())
                .contains("Cause: perhaps worn booster, 55 %.\n");
    }

    @Test
    void what_no_cause_explains_well_is_said_to_be_not_clear() {
        Message call =
                call(WEAK_BOOST, worn(0.39), bare(Cause.SET_LOW, 0.3), bare(Cause.AIR, 0.05));

        assertThat(call.subject()).isEqualTo("WARNING jet-1: weak boost: cause not clear");
        assertThat(call.text())
                .contains("Cause not clear: worn booster, 39 %; regulator set too low, 30 %.\n")
                .contains("leat answer jet-1 recovers")
                .doesNotContain("Because: ");
    }

    @Test
    void where_the_cause_is_unknown_the_usual_checks_stand() {
        Message unknown = call(WEAK_BOOST, bare(Cause.UNKNOWN, 0.8), worn(0.08));
        Message sound = call(WEAK_BOOST, Changes.suspect(Cause.HEALTHY, 0.9, Check.JET_OFF));

        assertThat(unknown.subject()).isEqualTo("WARNING jet-1: weak boost: cause not clear");
        for (Message call : List.of(unknown, sound)) {
            assertThat(call.text())
                    .contains("Cause not clear: it fits nothing that leat knows.\n", FIXED_CHECK)
                    .doesNotContain("leat answer");
        }
    }

    @Test
    void where_no_check_decides_the_usual_ones_stand() {
        Message call = call(WEAK_BOOST, bare(Cause.WORN_BOOSTER, 0.8));

        assertThat(call.text())
                .contains("Cause: worn booster likely, 80 %.\n", FIXED_CHECK)
                .doesNotContain("leat answer", "Because: ");
    }

    @Test
    void what_is_critical_is_stopped_before_it_is_looked_at() {
        Message call =
                call(
                        Changes.weakBoost(Grade.CRITICAL, ""),
                        Changes.suspect(Cause.NOT_TURNING, 0.9, Check.SHAFT));

        assertThat(call.text())
                .contains("Boatyard, jet-1: stop the booster now.\n")
                .containsPattern(
                        "Check first:\n1\\. Stop the booster; .*\n2\\. With the guard on, ");
    }

    @Test
    void alarm_of_a_signal_tells_only_causes_that_are_of_signals() {
        Finding bad =
                Changes.finding(
                        Rule.SIGNAL_BAD, Channel.INLET, Grade.WARNING, Quantity.TIME_SECONDS);

        Message ofThePump = call(bad, worn(0.9));
        Message ofTheLoop = call(bad, bare(Cause.OPEN_LOOP, 0.9));

        assertThat(ofThePump.subject()).isEqualTo("WARNING jet-1: inlet channel bad, 41.5 s");
        assertThat(ofThePump.text())
                .doesNotContain("Cause", "leat answer")
                .contains("1. Check the");
        assertThat(ofThePump.json()).doesNotContain("\"causes\"");
        assertThat(ofTheLoop.subject()).contains("open or shorted sensor loop, 90 %");
        assertThat(ofTheLoop.text()).contains("1. Check the transducer's connector");
    }

    @Test
    void first_line_says_less_for_a_long_name_and_cuts_one_that_leaves_no_room() {
        String fewer = first("a".repeat(40));
        String first = first("a".repeat(60));
        String cut = first("a".repeat(200));

        assertThat(fewer).endsWith(" seit 07:00. Booster verschlissen, 84 %.");
        assertThat(first)
                .isEqualTo(
                        "WARNUNG "
                                + "a".repeat(60)
                                + ": Booster hebt den Druck zu wenig, 1,62-fach (mindestens"
                                + " 2,00-fach) seit 07:00.");
        assertThat(cut).hasSize(160).contains("aaa...: Booster").endsWith(" seit 07:00.");
    }

    private static String first(String name) {
        Changed changed =
                new Changed(name, Changes.raised(WEAK_BOOST), Optional.of(Changes.why(worn(0.84))));
        Wording german = new Wording(Changes.site(Language.GERMAN, PressureUnit.PSI));

        return Changes.said(german, changed).text().lines().findFirst().orElseThrow();
    }

    @Test
    void news_of_what_stands_tell_the_check_that_decides_and_those_of_what_has_gone_do_not() {
        Diagnosis why = Changes.why(worn(0.84));
        Annunciator annunciator =
                new Annunciator(
                        Changes.site(
                                PressureUnit.PSI,
                                new RouteSettings.Log("all", RouteScope.from(Grade.ADVISORY))));
        Changes.owed(
                annunciator, new Changed("jet-1", Changes.raised(WEAK_BOOST), Optional.of(why)));

        Message acknowledged =
                wording.message(
                        Changes.owed(
                                        annunciator,
                                        new Changed(
                                                "jet-1",
                                                Changes.change(
                                                        2,
                                                        AlarmEvent.ACKNOWLEDGED,
                                                        AlarmState.ACKNOWLEDGED,
                                                        WEAK_BOOST,
                                                        "Ines")))
                                .get(0));
        Message returned =
                wording.message(
                        Changes.owed(
                                        annunciator,
                                        new Changed(
                                                "jet-1",
                                                Changes.change(
                                                        3,
                                                        AlarmEvent.RETURNED,
                                                        AlarmState.NORMAL,
                                                        WEAK_BOOST,
                                                        "")))
                                .get(0));

        assertThat(acknowledged.text()).contains("Check first: With the jet off, ");
        assertThat(acknowledged.json()).contains("\"causes\":[{\"cause\":\"worn-booster\"");
        assertThat(returned.text()).contains("Check first: Does it hold?");
        assertThat(returned.json()).doesNotContain("\"causes\"");
    }
}
