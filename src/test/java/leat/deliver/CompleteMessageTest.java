package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Stream;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
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
import leat.words.Language;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** No message about an alarm leaves its reader without a number, a limit or a caution. */
class CompleteMessageTest {

    private static final String SINCE = "2026-01-05 07:00:31 +01:00";

    /** One text message (3GPP TS 23.038, 7-bit alphabet). */
    private static final int LONGEST_FIRST_LINE = 160;

    /** Of that alphabet, its basic table (3GPP TS 23.038, 6.2.1) as far as leat uses it. */
    private static final String TEXT_MESSAGE = "[ -Z_a-zÄÖÜäöüß]+";

    /** Words that each message of a language must hold; written here by hand. */
    private record Expected(
            Language language, String limit, String since, String check, String caution) {}

    private static Stream<Expected> languages() {
        return Stream.of(
                new Expected(
                        Language.ENGLISH,
                        "at (least|most)",
                        "Since: ",
                        "Check first:",
                        "Caution: "),
                new Expected(
                        Language.GERMAN,
                        "(mindestens|höchstens)",
                        "Seit: ",
                        "Zuerst prüfen:",
                        "Vorsicht: "));
    }

    private static Finding finding(Rule rule, Grade grade) {
        Quantity quantity =
                switch (rule) {
                    case RATIO -> Quantity.RATIO;
                    case RISE, SIGNAL_MISSING, SIGNAL_BAD, SIGNAL_STUCK, SIGNAL_CLOCK ->
                            Quantity.TIME_SECONDS;
                    case LEVEL_LOW,
                            LEVEL_HIGH,
                            REST,
                            INLET,
                            BASELINE,
                            FILTER_LOSS,
                            SIGNAL_SWAPPED ->
                            Quantity.PRESSURE_PSI;
                };
        return new Finding(
                rule,
                Channel.BOOSTED,
                grade,
                Changes.SINCE,
                Changes.RAISED,
                quantity,
                43.21,
                21.54,
                Sense.AT_LEAST,
                Figure.of(41.5),
                Figure.of(12),
                List.of(Remark.of(Remark.Kind.AS_USUAL)));
    }

    private static String unit(Quantity quantity, PressureUnit shown, Language language) {
        return switch (quantity) {
            case PRESSURE_PSI -> " " + shown.symbol();
            case PRESSURE_PSI_PER_SECOND -> " " + shown.symbol() + "/s";
            case TIME_SECONDS -> " s";
            case RATIO -> language == Language.GERMAN ? "-fach" : " times";
        };
    }

    private static List<Message> every(Expected expected, PressureUnit shown) {
        Wording wording = new Wording(Changes.site(expected.language(), shown));
        return Stream.of(Rule.values())
                .flatMap(
                        rule ->
                                Stream.of(Grade.values())
                                        .flatMap(
                                                grade ->
                                                        Stream.of(AlarmEvent.values())
                                                                .map(
                                                                        event ->
                                                                                said(
                                                                                        wording,
                                                                                        finding(
                                                                                                rule,
                                                                                                grade),
                                                                                        event))))
                .toList();
    }

    private static Message said(Wording wording, Finding finding, AlarmEvent event) {
        return Changes.said(
                wording, Changes.change(1, event, AlarmState.UNACKNOWLEDGED, finding, "Ines"));
    }

    @ParameterizedTest
    @MethodSource("languages")
    void every_message_says_the_value_and_the_limit_with_their_unit(Expected expected) {
        for (PressureUnit shown : PressureUnit.values()) {
            for (Message message : every(expected, shown)) {
                Rule rule = Rule.byKey(message.topic().split("/")[2]).orElseThrow();
                String unit =
                        unit(finding(rule, message.grade()).quantity(), shown, expected.language());
                String number = "[0-9]+([.,][0-9]+)?" + unit;

                assertThat(message.text().replace("\n", " "))
                        .as("%s %s", rule, message.event())
                        .containsPattern(number + ".*" + expected.limit() + " " + number);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("languages")
    void every_message_says_where_since_when_what_to_check_first_and_the_caution(
            Expected expected) {
        for (Message message : every(expected, PressureUnit.PSI)) {
            assertThat(message.text())
                    .as("%s %s", message.topic(), message.event())
                    .contains("Boatyard, jet-1", expected.since() + SINCE, expected.check())
                    .contains("\n" + expected.caution())
                    .endsWith(message.id() + ".");
            assertThat(message.text().lines())
                    .allMatch(line -> line.length() <= LONGEST_FIRST_LINE && !line.isBlank())
                    .anyMatch(line -> line.matches(".*" + check(expected) + ".*"));
            assertThat(message.text().lines().skip(1)).allMatch(line -> line.length() <= 100);
            assertThat(message.subject()).contains("jet-1").doesNotContain("{", "null");
        }
    }

    @ParameterizedTest
    @MethodSource("languages")
    void first_line_of_every_call_stands_alone_whatever_the_cause(Expected expected) {
        for (Cause cause : Cause.values()) {
            for (Message call : callsInEachUnit(expected, cause, 0.84)) {
                boolean told = cause != Cause.HEALTHY && cause != Cause.UNKNOWN;
                String first = call.text().lines().findFirst().orElseThrow();

                assertThat(first)
                        .as("%s %s", cause, call.topic())
                        .hasSizeLessThanOrEqualTo(LONGEST_FIRST_LINE)
                        .matches(TEXT_MESSAGE)
                        .startsWith(call.subject().split(" jet-1: ")[0] + " jet-1: ")
                        .containsPattern(expected.limit() + " .*07:00\\.")
                        .endsWith(" leat ack 123")
                        .doesNotContain("{", "null");
                if (first.contains("84 %")
                        || expected.language() == Language.ENGLISH && isOfLife(call)) {
                    assertThat(first.contains("84 %"))
                            .as(first)
                            .isEqualTo(told && isTold(call, cause));
                }
            }
        }
    }

    @ParameterizedTest
    @MethodSource("languages")
    void every_call_with_a_cause_says_what_to_check_how_to_answer_and_the_caution(
            Expected expected) {
        for (Cause cause : EnumSet.complementOf(EnumSet.of(Cause.HEALTHY, Cause.UNKNOWN))) {
            for (Message call : calls(expected, PressureUnit.PSI, cause, 0.5)) {
                assertThat(call.text())
                        .as("%s %s", cause, call.topic())
                        .contains(expected.since() + SINCE, expected.check())
                        .contains("\n" + expected.caution())
                        .doesNotContain("{", "null");
                assertThat(call.text().lines().skip(1))
                        .allMatch(line -> line.length() <= 100 && !line.isBlank());
                assertThat(
                                call.text()
                                        .replaceAll("\\s+", " ")
                                        .contains("leat answer jet-1 recovers"))
                        .isEqualTo(isTold(call, cause));
            }
        }
    }

    /** No other rule has a limit that is CRITICAL. */
    private static boolean isOfLife(Message call) {
        return call.grade() != Grade.CRITICAL
                || Set.of("rise", "ratio", "inlet").contains(call.topic().split("/")[2]);
    }

    /** Of what pressures show, an alarm about a signal says nothing. */
    private static boolean isTold(Message call, Cause cause) {
        Rule rule = Rule.byKey(call.topic().split("/")[2]).orElseThrow();
        return !rule.isAboutSignal() || OF_SIGNALS.contains(cause);
    }

    private static final Set<Cause> OF_SIGNALS =
            EnumSet.range(Cause.INLET_OFFSET, Cause.CONFIGURATION);

    private static List<Message> callsInEachUnit(Expected expected, Cause cause, double weight) {
        return Stream.of(PressureUnit.values())
                .flatMap(unit -> calls(expected, unit, cause, weight).stream())
                .toList();
    }

    private static List<Message> calls(
            Expected expected, PressureUnit unit, Cause cause, double weight) {
        Wording wording = new Wording(Changes.site(expected.language(), unit));
        Optional<Diagnosis> why =
                Optional.of(
                        Changes.why(
                                Changes.suspect(cause, weight, Check.JET_OFF),
                                Changes.suspect(Cause.AIR, 0.3)));
        return Stream.of(Rule.values())
                .flatMap(rule -> Stream.of(Grade.values()).map(grade -> finding(rule, grade)))
                .map(
                        finding ->
                                new Changed(
                                        "jet-1",
                                        Changes.raised(finding),
                                        why,
                                        OptionalLong.of(123)))
                .map(changed -> Changes.said(wording, changed))
                .toList();
    }

    /** A check stands in the line of its heading, or is the first of several. */
    private static String check(Expected expected) {
        return "(" + expected.check() + " \\S|1\\. \\S)";
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void the_json_is_the_same_for_programs_whatever_the_language(Language language) {
        Finding finding = finding(Rule.LEVEL_LOW, Grade.WARNING);

        Message message =
                said(
                        new Wording(Changes.site(language, PressureUnit.BAR)),
                        finding,
                        AlarmEvent.RAISED);

        assertThat(message.json())
                .contains(
                        "\"language\":\"" + language.key() + "\"",
                        "\"grade\":\"warning\"",
                        "\"rule\":\"level-low\"",
                        "\"measured\":{\"value\":43.21,\"unit\":\"psi\"}",
                        "\"since\":\"" + Instant.parse("2026-01-05T06:00:31Z") + "\"");
        assertThat(message.topic()).isEqualTo("jet-1/alarm/level-low");
    }
}
