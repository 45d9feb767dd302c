package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.Site;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Suspect;
import leat.rule.Finding.Quantity;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.store.Message;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class AlarmJsonTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    private JsonNode schema;

    @BeforeEach
    void read_the_schema() throws Exception {
        schema = JSON.readTree(Path.of("config/alarm-message.schema.json").toFile());
    }

    @Test
    void every_field_of_a_change_is_there() throws Exception {
        JsonNode json =
                json(
                        PressureUnit.BAR,
                        Changes.weakBoost(Grade.WARNING, "broken wire"),
                        AlarmEvent.RAISED);

        assertThat(json.path("schema").textValue()).isEqualTo("leat.alarm/1");
        assertThat(json.path("id").textValue()).isEqualTo("jet-1.ratio.20260105T060101Z/1");
        assertThat(json.path("alarm").textValue()).isEqualTo("jet-1.ratio.20260105T060101Z");
        assertThat(json.path("event").textValue()).isEqualTo("raised");
        assertThat(json.path("state").textValue()).isEqualTo("unacknowledged");
        assertThat(json.path("grade").textValue()).isEqualTo("warning");
        assertThat(json.path("at").textValue()).isEqualTo("2026-01-05T06:01:01.250Z");
        assertThat(json.path("since").textValue()).isEqualTo("2026-01-05T06:00:31Z");
        assertThat(json.path("measured"))
                .isEqualTo(JSON.readTree("{'value':1.6249,'unit':'1'}".replace('\'', '"')));
        assertThat(json.path("limit").path("sense").textValue()).isEqualTo("at-least");
        assertThat(json.path("detail").textValue()).isEqualTo("broken wire");
        assertThat(json.path("check_first")).hasSize(3);
        assertThat(json.path("caution").textValue()).contains("lock out");
    }

    @Test
    void pressures_are_psi_whatever_the_site_is_shown_in() throws Exception {
        JsonNode json =
                json(
                        PressureUnit.BAR,
                        Changes.finding(
                                Rule.REST, Channel.BOOSTED, Grade.ADVISORY, Quantity.PRESSURE_PSI),
                        AlarmEvent.RAISED);

        assertThat(json.path("measured").path("value").doubleValue()).isEqualTo(41.5);
        assertThat(json.path("measured").path("unit").textValue()).isEqualTo("psi");
        assertThat(json.path("limit").path("unit").textValue()).isEqualTo("psi");
        assertThat(json.path("text").textValue()).contains("2.86 bar");
    }

    @Test
    void every_message_that_can_be_written_keeps_to_the_schema() throws Exception {
        for (Rule rule : Rule.values()) {
            for (AlarmEvent event : AlarmEvent.values()) {
                for (Quantity quantity : Quantity.values()) {
                    JsonNode json =
                            json(
                                    PressureUnit.KPA,
                                    Changes.finding(rule, Channel.VALVE, Grade.CRITICAL, quantity),
                                    event);

                    assertThat(SchemaCheck.problems(schema, json))
                            .as("%s %s %s", rule, event, quantity)
                            .isEmpty();
                }
            }
        }
    }

    @Test
    void schema_names_every_field_and_every_word_and_no_other() throws Exception {
        ObjectNode json =
                (ObjectNode)
                        json(
                                PressureUnit.PSI,
                                Changes.weakBoost(Grade.WARNING, ""),
                                AlarmEvent.RAISED);

        List<String> fields = names(json);

        List<String> known = new java.util.ArrayList<>(names(schema.path("properties")));
        known.remove("shelved_until"); // of a shelved alarm only, see HeldAlarmsTest
        known.remove("number"); // of a stored alarm only, see AlarmNumbersTest
        known.remove("causes"); // where anybody looked for the cause, see below
        known.remove("stored"); // of what is told from memory only, see ToldFromMemoryTest
        assertThat(known).containsExactlyElementsOf(fields);
        List<String> always = new java.util.ArrayList<>(fields);
        always.removeAll(List.of("inlet", "boosted"));
        assertThat(texts(schema.path("required"))).containsExactlyElementsOf(always);
        assertThat(words("rule")).containsExactlyElementsOf(each(Rule.values(), Rule::key));
        assertThat(words("channel"))
                .containsExactlyElementsOf(each(Channel.values(), Channel::key));
        List<String> events = new java.util.ArrayList<>(each(AlarmEvent.values(), AlarmEvent::key));
        events.addAll(List.of("escalated", "again")); // of a call that nobody answered
        events.add("alone"); // of one that another stood for
        assertThat(words("event")).containsExactlyElementsOf(events);
        assertThat(words("state"))
                .containsExactlyElementsOf(each(AlarmState.values(), AlarmState::key));
        assertThat(words("own_state"))
                .containsExactlyElementsOf(
                        each(AlarmState.values(), AlarmState::key)
                                .subList(0, AlarmState.SHELVED.ordinal()));
        assertThat(words("grade"))
                .containsExactlyElementsOf(
                        each(Grade.values(), g -> g.name().toLowerCase(java.util.Locale.ROOT)));
    }

    @Test
    void call_that_nobody_answered_keeps_to_the_schema() throws Exception {
        AlarmChange raised = Changes.raised(Changes.weakBoost(Grade.WARNING, ""));
        StandingAlarm.Since since = new StandingAlarm.Since(1, Changes.RAISED);
        Site site = Changes.site(PressureUnit.PSI);

        Again once = new Again("jet-1", raised, Optional.empty(), OptionalLong.empty(), since, 0);
        Again often = new Again("jet-1", raised, Optional.empty(), OptionalLong.empty(), since, 7);
        Message first = Changes.said(site, once.id(), once);
        Message again = Changes.said(site, often.id(), often);

        assertThat(SchemaCheck.problems(schema, JSON.readTree(first.json()))).isEmpty();
        assertThat(SchemaCheck.problems(schema, JSON.readTree(again.json()))).isEmpty();
    }

    @Test
    void check_against_the_schema_can_fail() throws Exception {
        ObjectNode json =
                (ObjectNode)
                        json(
                                PressureUnit.PSI,
                                Changes.weakBoost(Grade.WARNING, ""),
                                AlarmEvent.RAISED);
        json.remove("since");
        json.put("grade", "mild");
        json.put("at", "yesterday");
        json.putArray("check_first");
        ((ObjectNode) json.get("measured")).put("value", "1.6");

        List<String> problems = SchemaCheck.problems(schema, json);

        assertThat(problems).hasSize(5);
    }

    @Test
    void causes_are_there_with_what_speaks_for_and_against_them_and_the_check() throws Exception {
        Diagnosis why =
                Changes.why(
                        Changes.suspect(Cause.WORN_BOOSTER, 0.84, Check.JET_OFF),
                        new Suspect(Cause.SET_LOW, 0.12, List.of(), List.of(), Optional.empty()));
        Changed changed =
                new Changed(
                        "jet-1",
                        Changes.raised(Changes.weakBoost(Grade.WARNING, "")),
                        Optional.of(why));

        JsonNode json =
                JSON.readTree(
                        Changes.said(new Wording(Changes.site(PressureUnit.BAR)), changed).json());

        assertThat(SchemaCheck.problems(schema, json)).isEmpty();
        assertThat(json.path("causes"))
                .isEqualTo(
                        JSON.readTree(
                                """
                                [{"cause":"worn-booster","weight":0.84,
                                  "for":["the pump gives out under load: drop when strokes begin \
                                1.55 bar, usual 0.29 bar",
                                         "the booster adds little to the inlet: boosted over inlet \
                                1.62, usual 2.40"],
                                  "against":["inlet lost while running 0.07 bar"],
                                  "check":"With the jet off, leave the booster on for 10 s and watch \
                                the boosted gauge: recovers = worn booster, or something chokes \
                                the water before it; stays low = regulator setting, or the pump \
                                does not turn."},
                                 {"cause":"set-low","weight":0.12,"for":[],"against":[]}]
                                """));
        assertThat(json.path("check_first")).hasSize(1);
    }

    @Test
    void schema_names_every_cause() {
        assertThat(texts(schema.path("$defs").path("cause").path("enum")))
                .containsExactlyElementsOf(each(Cause.values(), Cause::key));
    }

    private static JsonNode json(PressureUnit unit, leat.rule.Finding finding, AlarmEvent event)
            throws Exception {
        return JSON.readTree(
                Changes.said(
                                new Wording(Changes.site(unit)),
                                Changes.change(
                                        1, event, AlarmState.UNACKNOWLEDGED, finding, "Ines"))
                        .json());
    }

    private List<String> words(String field) {
        return texts(schema.path("properties").path(field).path("enum"));
    }

    private static List<String> names(JsonNode object) {
        return object.properties().stream().map(java.util.Map.Entry::getKey).toList();
    }

    private static List<String> texts(JsonNode array) {
        return StreamSupport.stream(array.spliterator(), false).map(JsonNode::textValue).toList();
    }

    private static <T> List<String> each(T[] values, java.util.function.Function<T, String> key) {
        return Stream.of(values).map(key).toList();
    }
}
