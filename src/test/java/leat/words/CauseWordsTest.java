package leat.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Feature;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class CauseWordsTest {

    private static final CauseWords ENGLISH = words(Language.ENGLISH, PressureUnit.PSI);
    private static final CauseWords GERMAN = words(Language.GERMAN, PressureUnit.BAR);

    private static CauseWords words(Language language, PressureUnit unit) {
        return new CauseWords(Phrases.in(language), new Numbers(language, unit, ZoneOffset.UTC));
    }

    private static Suspect suspect(Cause cause, double weight, Check... check) {
        return new Suspect(cause, weight, List.of(), List.of(), Arrays.stream(check).findFirst());
    }

    private static Diagnosis diagnosis(Suspect... suspects) {
        return new Diagnosis(List.of(suspects), 4, 12, List.of());
    }

    private static List<Cause> causesWithSteps() {
        List<Cause> causes = new ArrayList<>(List.of(Cause.values()));
        causes.remove(Cause.HEALTHY);
        return causes;
    }

    private static List<String> steps(CauseWords words, Cause cause) {
        return words.steps(cause, "jet-1").stream().map(CauseWords.Step::text).toList();
    }

    @ParameterizedTest
    @CsvSource({
        "WORN_BOOSTER, 0.84, 'worn booster likely, 84 %', 'wahrscheinlich Booster verschlissen, 84 %'",
        "WORN_BOOSTER, 0.926, 'worn booster, 93 %', 'Booster verschlissen, 93 %'",
        "WORN_BOOSTER, 0.48, 'perhaps worn booster, 48 %', 'vielleicht Booster verschlissen, 48 %'",
        "WORN_BOOSTER, 0.33, 'not clear; worn booster 33 %', 'unklar; Booster verschlissen 33 %'",
        "SWAPPED, 1.0, 'inlet and boosted changed over, 99 %', 'Eingang und Booster vertauscht, 99 %'",
        "HEALTHY, 0.97, 'sound, 97 %', 'in Ordnung, 97 %'",
        "HEALTHY, 0.7, 'probably sound, 70 %', 'wahrscheinlich in Ordnung, 70 %'",
        "UNKNOWN, 0.6, cause not clear, Ursache unklar",
        // as it is shown, so it is called
        "AIR, 0.8951, 'air in the line, 90 %', 'Luft in der Leitung, 90 %'"
    })
    void how_likely_a_cause_is_stands_in_one_short_line(
            Cause cause, double weight, String english, String german) {
        Diagnosis diagnosis = diagnosis(suspect(cause, weight));

        assertThat(ENGLISH.likely(diagnosis)).isEqualTo(english);
        assertThat(GERMAN.likely(diagnosis)).isEqualTo(german);
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void a_cause_fits_a_line_of_a_phone_however_likely_it_is(Language language) {
        CauseWords words = words(language, PressureUnit.PSI);

        for (Cause cause : Cause.values()) {
            assertThat(words.cause(cause)).hasSizeLessThanOrEqualTo(40);
            for (double weight : new double[] {0.2, 0.48, 0.84, 0.93}) {
                assertThat(words.likely(diagnosis(suspect(cause, weight))))
                        .hasSizeLessThanOrEqualTo(60);
            }
        }
    }

    @Test
    void the_first_sentence_says_what_it_is_how_to_be_sure_and_what_to_do() {
        Diagnosis diagnosis =
                diagnosis(
                        suspect(Cause.WORN_BOOSTER, 0.61, Check.JET_OFF),
                        suspect(Cause.VALVE_PART_OPEN, 0.24));

        assertThat(ENGLISH.sentence(diagnosis))
                .isEqualTo(
                        "Most likely the booster is worn (61 %; next: shut-off valve only partly"
                                + " open, 24 %): leave the booster on for 10 s with the jet off and"
                                + " see whether the level recovers; if that confirms it, plan to"
                                + " replace the booster.");
        assertThat(GERMAN.sentence(diagnosis))
                .isEqualTo(
                        "Wahrscheinlich ist der Booster verschlissen (61 %; sonst: Absperrventil"
                                + " öffnet nur teilweise, 24 %): den Booster ohne Strahl 10 s"
                                + " laufen lassen und sehen, ob sich der Druck erholt; bestätigt"
                                + " sich das, Tausch des Boosters einplanen.");
    }

    @Test
    void a_rival_below_a_fifth_is_left_out_of_the_sentence() {
        Diagnosis diagnosis =
                diagnosis(suspect(Cause.FILTERS_CLOGGED, 0.8), suspect(Cause.HEALTHY, 0.19));

        assertThat(ENGLISH.sentence(diagnosis))
                .isEqualTo(
                        "Most likely the filters are clogged (80 %): change the cartridges at the"
                                + " next stop, once the pressure is relieved.");
    }

    @Test
    void on_a_guess_that_no_check_settles_nothing_is_replaced() {
        assertThat(ENGLISH.sentence(diagnosis(suspect(Cause.WORN_BOOSTER, 0.45))))
                .isEqualTo(
                        "Perhaps the booster is worn (45 %): replace nothing yet, and compare both"
                                + " dial gauges with the readings at the next start.");
    }

    @Test
    void a_sound_machine_needs_nothing() {
        Diagnosis diagnosis = diagnosis(suspect(Cause.HEALTHY, 0.97));

        assertThat(ENGLISH.sentence(diagnosis))
                .isEqualTo(
                        "Almost certainly the machine is sound (97 %): nothing needs to be done.");
        assertThat(GERMAN.sentence(diagnosis))
                .isEqualTo("Fast sicher ist die Maschine in Ordnung (97 %): kein Handlungsbedarf.");
    }

    @Test
    void what_is_not_known_is_said_to_be_unknown() {
        assertThat(ENGLISH.sentence(diagnosis(suspect(Cause.UNKNOWN, 0.55))))
                .startsWith("The cause is not clear: compare both dial gauges");
        assertThat(
                        ENGLISH.sentence(
                                diagnosis(
                                        suspect(Cause.UNKNOWN, 0.5, Check.WALK_THE_LINE),
                                        suspect(Cause.EXTERNAL_LEAK, 0.3))))
                .isEqualTo(
                        "The cause is not clear (perhaps: leak after the booster, 30 %): walk the"
                                + " line from booster to intensifier and look for water.");
    }

    @ParameterizedTest
    @EnumSource(
            value = Cause.class,
            names = {"SUPPLY_SHUT", "NOT_TURNING"})
    void what_may_ruin_the_booster_begins_with_stopping_it_and_waits_for_no_check(Cause cause) {
        Diagnosis diagnosis = diagnosis(suspect(cause, 0.7, Check.SHAFT));

        assertThat(ENGLISH.sentence(diagnosis)).contains("(70 %): stop the booster");
        assertThat(GERMAN.sentence(diagnosis)).contains("(70 %): Booster abstellen");
    }

    @Test
    void a_reason_has_its_value_and_what_is_usual_in_the_unit_of_the_site() {
        Reason drop = new Reason(Feature.DROP, 22.5, OptionalDouble.of(4.2), 3);

        assertThat(ENGLISH.reason(drop))
                .isEqualTo("drop when strokes begin 22.5 psi, usual 4.2 psi");
        assertThat(GERMAN.reason(drop))
                .isEqualTo("Druckabfall mit den ersten Hüben 1,55 bar, üblich 0,29 bar");
        assertThat(ENGLISH.reason(new Reason(Feature.RATIO, 1.31, OptionalDouble.empty(), 3)))
                .isEqualTo("boosted over inlet 1.31");
        assertThat(ENGLISH.reason(new Reason(Feature.BOOST_RATE, 10, OptionalDouble.of(60), 3)))
                .isEqualTo("climb from inlet 10.0 psi/s, usual 60.0 psi/s");
    }

    @Test
    void evidence_says_what_it_shows_by_the_side_on_which_it_lies() {
        Reason gives = new Reason(Feature.DROP, 22.5, OptionalDouble.of(4.2), 3);
        Reason holds = new Reason(Feature.INLET_SAG, 1, OptionalDouble.of(3), -3);

        assertThat(ENGLISH.evidence(Cause.WORN_BOOSTER, gives))
                .isEqualTo(
                        "the pump gives out under load: drop when strokes begin 22.5 psi, usual 4.2"
                                + " psi");
        assertThat(ENGLISH.evidence(Cause.SET_LOW, gives))
                .startsWith("the level gives way under load: ");
        assertThat(ENGLISH.evidence(Cause.STRAINER_CLOGGED, holds))
                .isEqualTo(
                        "the supply is not the cause: inlet lost while running 1.0 psi, usual 3.0"
                                + " psi");
        assertThat(GERMAN.evidence(Cause.STRAINER_CLOGGED, holds))
                .startsWith("am Zulauf liegt es nicht: ");
    }

    @Test
    void what_differs_as_with_a_cause_but_by_less_is_said_so() {
        Reason slow = new Reason(Feature.BOOST_RATE, 50, OptionalDouble.of(60), -1, true);
        Reason usual = new Reason(Feature.BOOST_RATE, 60, OptionalDouble.of(60), -1, true);

        assertThat(ENGLISH.evidence(Cause.WORN_BOOSTER, slow))
                .startsWith("the booster lifts slowly, but less so than with this cause: climb");
        assertThat(GERMAN.evidence(Cause.WORN_BOOSTER, slow))
                .startsWith("der Booster hebt den Druck langsam, doch weniger als bei dieser");
        assertThat(ENGLISH.evidence(Cause.WORN_BOOSTER, usual))
                .startsWith("the booster lifts as fast as usual: climb");
    }

    @Test
    void what_speaks_against_a_cause_is_not_said_in_words_that_speak_for_it() {
        OptionalDouble usual = OptionalDouble.of(0);
        Reason pro = new Reason(Feature.REST_PRESSURE, 24, usual, 3);
        Reason contra = new Reason(Feature.REST_PRESSURE, 24, usual, -3);
        Reason held = new Reason(Feature.DROP, 4.2, OptionalDouble.of(4.2), -3);

        assertThat(ENGLISH.evidence(Cause.BOOSTED_OFFSET, pro))
                .startsWith("the boosted gauge reads something even at rest: ");
        assertThat(ENGLISH.evidence(Cause.BOOSTED_OFFSET, contra))
                .startsWith("pressure is left at rest: ");
        assertThat(ENGLISH.evidence(Cause.WORN_BOOSTER, held))
                .startsWith("the pump holds under load: ");
    }

    @Test
    void a_check_says_what_each_answer_means() {
        assertThat(ENGLISH.check(Check.JET_OFF))
                .isEqualTo(
                        "With the jet off, leave the booster on for 10 s and watch the boosted"
                                + " gauge: recovers = worn booster, or something chokes the water"
                                + " before it; stays low = regulator setting, or the pump does not"
                                + " turn.");
        assertThat(ENGLISH.asks(Check.DIAL_GAUGE))
                .isEqualTo("Inlet: do dial gauge and reading agree, within 3 psi?");
        assertThat(GERMAN.asks(Check.DIAL_GAUGE))
                .isEqualTo("Eingang: sind Zeigermanometer und Messwert auf 0,2 bar gleich?");
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void the_two_answers_of_a_check_are_told_apart(Language language) {
        CauseWords words = words(language, PressureUnit.PSI);

        for (Check check : Check.values()) {
            assertThat(check.answers()).extracting(words::answer).doesNotHaveDuplicates();
            assertThat(check.answers()).extracting(words::meaning).doesNotHaveDuplicates();
        }
        assertThat(Check.values()).extracting(words::asks).allMatch(asks -> asks.endsWith("?"));
        assertThat(Answer.values())
                .extracting(words::answer)
                .allMatch(answer -> answer.length() <= 25);
    }

    /** Wherever a check brings people near what can hurt them; common practice, no source. */
    @Test
    void a_check_with_locks_on_says_so_and_one_that_opens_a_line_relieves_it_first() {
        for (Check check : Check.values()) {
            if (check.toll().compareTo(Check.Toll.LOCKED_OUT) >= 0) {
                for (String way : List.of(".do", ".look")) {
                    String key = "check." + check.key() + way;
                    assertThat(Phrases.in(Language.ENGLISH).say(key))
                            .as(key)
                            .containsIgnoringCase("isolate")
                            .containsPattern("lock(ed)? out");
                    assertThat(Phrases.in(Language.GERMAN).say(key))
                            .as(key)
                            .containsIgnoringCase("spannungsfrei")
                            .containsPattern("sichern|gesichert");
                }
            }
            if (check.toll() == Check.Toll.LINE_OPENED) {
                String key = "check." + check.key() + ".do";
                assertThat(Phrases.in(Language.ENGLISH).say(key))
                        .as(key)
                        .containsPattern("shut the water, relieve the pressure, then");
                assertThat(Phrases.in(Language.GERMAN).say(key))
                        .as(key)
                        .containsPattern("Wasser absperren, Druck ablassen, dann");
            }
        }
    }

    @Test
    void what_a_diagnosis_rests_on_is_said() {
        Suspect worn = suspect(Cause.WORN_BOOSTER, 0.8);

        assertThat(ENGLISH.basis(new Diagnosis(List.of(worn), 4, 12, List.of())))
                .isEqualTo("from 4 starts, compared with its own 12");
        assertThat(ENGLISH.basis(new Diagnosis(List.of(worn), 1, 0, List.of())))
                .isEqualTo(
                        "from 1 start, compared with machines in general: what is usual for this"
                                + " one is still being learned");
        assertThat(ENGLISH.basis(new Diagnosis(List.of(worn), 4, 3, List.of(Answer.RECOVERS))))
                .isEqualTo(
                        "from 4 starts, compared with its own 3 and, as these are few, with"
                                + " machines in general; 1 check answered");
        assertThat(GERMAN.basis(new Diagnosis(List.of(worn), 4, 12, List.of())))
                .isEqualTo("aus 4 Starts, verglichen mit 12 eigenen");
    }

    @Test
    void nothing_is_to_be_done_to_a_sound_machine() {
        assertThat(ENGLISH.steps(Cause.HEALTHY)).isEmpty();
    }

    @Test
    void all_work_begins_with_who_decides_and_ends_with_telling_leat() {
        for (Cause cause : causesWithSteps()) {
            List<String> english = steps(ENGLISH, cause);
            List<String> german = steps(GERMAN, cause);

            assertThat(english.get(0))
                    .contains("Site procedure", "local codes", "qualified people")
                    .contains("high-pressure side can injure fatally");
            assertThat(german.get(0))
                    .contains("Anweisungen des Betriebs", "örtliche Vorschriften", "Fachleute")
                    .contains("Hochdruckseite", "tödlich");
            assertThat(english.get(english.size() - 1)).contains("leat journal jet-1 --");
            assertThat(german).hasSameSizeAs(english);
        }
    }

    @Test
    void no_line_is_opened_before_power_and_water_are_off_and_none_left_without_a_look_for_leaks() {
        for (Cause cause : causesWithSteps()) {
            List<String> steps = steps(ENGLISH, cause);
            int open =
                    first(
                            steps,
                            "Take the old pump off|Open the strainer|Clean seat|Change the"
                                    + " cartridges|regulator's cartridge out|Mend the leak|replace the transducer");
            if (open >= 0) {
                assertThat(first(steps, "lock out")).as(cause.key()).isBetween(0, open - 1);
                assertThat(first(steps, "must read 0")).as(cause.key()).isBetween(0, open - 1);
                assertThat(first(steps, "look for leaks")).as(cause.key()).isGreaterThan(open);
            }
        }
    }

    private static int first(List<String> steps, String words) {
        return Collections.indexOfSubList(
                steps.stream().map(step -> step.matches(".*(" + words + ").*")).toList(),
                List.of(true));
    }

    @Test
    void a_new_pump_gets_the_gap_of_the_old_one() {
        List<String> steps = steps(ENGLISH, Cause.WORN_BOOSTER);

        assertThat(first(steps, "Measure the gap")).isLessThan(first(steps, "old pump off"));
        assertThat(first(steps, "which hose is in")).isLessThan(first(steps, "old pump off"));
        assertThat(first(steps, "with the same gap")).isLessThan(first(steps, "by hand"));
        assertThat(first(steps, "measure the gap again")).isLessThan(first(steps, "water before"));
        assertThat(ENGLISH.steps(Cause.WORN_BOOSTER))
                .filteredOn(CauseWords.Step::isMeasured)
                .extracting(CauseWords.Step::text)
                .anyMatch(text -> text.contains("gap"))
                .anyMatch(text -> text.contains("about 100 psi is good, more than 120 psi"));
        assertThat(steps(GERMAN, Cause.WORN_BOOSTER))
                .anyMatch(text -> text.contains("etwa 6,9 bar ist gut, mehr als 8,3 bar"))
                .last()
                .asString()
                .endsWith("leat journal jet-1 --did pump-replaced --found worn-booster");
    }

    @Test
    void a_strainer_that_the_inlet_gauge_does_not_see_is_looked_at_before_the_pump_comes_off() {
        List<String> steps = steps(ENGLISH, Cause.WORN_BOOSTER);

        assertThat(first(steps, "strainer or hose between inlet gauge and pump"))
                .isBetween(first(steps, "must read 0"), first(steps, "old pump off"));
    }

    @Test
    void a_gap_is_measured_before_it_is_compared_with_what_it_was() {
        for (Cause cause : causesWithSteps()) {
            List<String> steps = steps(ENGLISH, cause);
            if (first(steps, "measure the gap again") >= 0) {
                assertThat(first(steps, "Measure the gap")).as(cause.key()).isNotNegative();
            }
        }
    }

    @Test
    void whoever_locks_out_takes_the_locks_off_before_anything_runs() {
        for (Cause cause : causesWithSteps()) {
            List<String> steps = steps(ENGLISH, cause);
            int locked = first(steps, "lock out.*(may move|Wiring only)|Wiring only");
            if (locked >= 0) {
                int off = first(steps, "take the locks off");
                assertThat(off).as(cause.key()).isGreaterThan(locked);
                assertThat(first(steps, "Start the booster"))
                        .as(cause.key())
                        .matches(start -> start < 0 || start > off);
            }
        }
    }

    @Test
    void what_opened_the_line_is_told_as_such_so_that_air_is_expected() {
        assertThat(steps(ENGLISH, Cause.VALVE_LEAKS))
                .last()
                .asString()
                .endsWith("leat journal jet-1 --did serviced --found valve-leaks");
        assertThat(steps(ENGLISH, Cause.WEAK_SUPPLY))
                .last()
                .asString()
                .endsWith("leat journal jet-1 --found weak-supply");
        assertThat(steps(GERMAN, Cause.UNKNOWN))
                .last()
                .asString()
                .endsWith("leat journal jet-1 --found URSACHE");
    }

    @Test
    void a_valve_that_was_shut_is_not_opened_before_it_is_known_why() {
        assertThat(ENGLISH.sentence(diagnosis(suspect(Cause.SUPPLY_SHUT, 0.9))))
                .contains("find out who shut the water and why, and open it before a restart");
        assertThat(ENGLISH.check(Check.SUPPLY_VALVE)).contains("find out who shut it and why");
        for (Cause cause : causesWithSteps()) {
            assertThat(steps(ENGLISH, cause))
                    .filteredOn(step -> step.contains("hand valve upstream fully open"))
                    .allMatch(step -> step.contains("who shut it and why before you open it"));
        }
    }

    @Test
    void a_line_that_may_be_under_pressure_is_said_to_be_before_any_check() {
        Diagnosis diagnosis = diagnosis(suspect(Cause.VALVE_LEAKS, 0.7, Check.RELIEVE));

        assertThat(ENGLISH.sentence(diagnosis))
                .contains("(70 %): treat the line as under pressure");
        assertThat(GERMAN.sentence(diagnosis))
                .contains("(70 %): die Leitung auch im Stillstand als unter Druck behandeln");
    }

    @Test
    void only_steps_that_fit_the_cause_are_told() {
        assertThat(steps(ENGLISH, Cause.STRAINER_CLOGGED)).noneMatch(s -> s.contains("gap"));
        assertThat(steps(ENGLISH, Cause.OPEN_LOOP))
                .noneMatch(s -> s.contains("hose") || s.contains("gap"))
                .anyMatch(s -> s.contains("Isolate the electricity of machine and cabinet"));
    }

    @Test
    void each_number_is_named_as_in_the_table_of_starts() {
        for (Language language : Language.values()) {
            CauseWords words = words(language, PressureUnit.PSI);
            FindingWords table =
                    new FindingWords(
                            Phrases.in(language),
                            new Numbers(language, PressureUnit.PSI, ZoneOffset.UTC));

            assertThat(Feature.values())
                    .filteredOn(feature -> !Phrases.in(language).has("feature." + feature.key()))
                    .allSatisfy(
                            feature ->
                                    assertThat(words.feature(feature))
                                            .isEqualTo(table.title(feature.measurand())));
        }
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void no_two_numbers_have_the_same_name(Language language) {
        assertThat(Feature.values())
                .extracting(words(language, PressureUnit.PSI)::feature)
                .doesNotHaveDuplicates();
    }

    @Test
    void whether_a_level_was_reached_is_said_without_a_number() {
        Reason no = new Reason(Feature.NOT_RISEN, 1, OptionalDouble.of(0), 3);
        Reason yes = new Reason(Feature.NOT_RISEN, 0, OptionalDouble.of(0), -3);

        assertThat(ENGLISH.evidence(Cause.NOT_TURNING, no)).isEqualTo("no level was reached");
        assertThat(GERMAN.evidence(Cause.NOT_TURNING, yes))
                .isEqualTo("ein Druckniveau wurde erreicht");
    }

    @Test
    void a_rival_that_is_not_known_is_something_else() {
        assertThat(
                        ENGLISH.sentence(
                                diagnosis(
                                        suspect(Cause.AIR, 0.7, Check.VENT),
                                        suspect(Cause.UNKNOWN, 0.3))))
                .contains("(70 %; next: something else, 30 %)");
    }
}
