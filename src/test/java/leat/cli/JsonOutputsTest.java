package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.replay.Backtest;
import leat.report.SchemaFile;
import leat.rule.Grade;
import leat.rule.Learning;
import leat.rule.Rule;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every command that prints JSON, on a store with a learned baseline, one that is being learned,
 * alarms in many states, and a machine in service.
 */
class JsonOutputsTest {

    private static final Pattern SCHEMA = Pattern.compile("config/([a-z]+\\.schema\\.json)");
    private static final long HOUR = 3_600_000_000L;

    @TempDir static Path folder;
    private static StoredSite site;

    @BeforeAll
    static void live() throws IOException {
        site =
                StoredSite.in(folder)
                        .saw("jet-1", BaselineCommandTest.starts(10, 3))
                        .saw("jet-2", StoredSite.pressures("demo", "jet-2", StoredSite.SIX + HOUR));
        long later = StoredSite.SIX + 2 * HOUR;
        List<Input> done = new ArrayList<>();
        for (JsonNode alarm : site.json("alarms", "--json").get("alarms")) {
            if (alarm.get("machine").asText().equals("jet-1")) {
                done.add(
                        new Instruction(
                                later,
                                "kim",
                                new Order.Shelve(
                                        alarm.get("id").asText(), later + HOUR, "on order")));
            }
        }
        site.saw("jet-1", done);
        site.saw(
                "jet-2",
                List.of(
                        new Instruction(
                                later,
                                "kim",
                                new Order.Journal(Order.Entry.SERVICE_ON, "new\u001b[31m seal")),
                        new Instruction(
                                later,
                                "kim",
                                new Order.Journal(Order.Entry.NOTE, "", "worn-booster"))));
    }

    /** By command, the schemas that its help names. */
    private static Map<String, List<String>> named() {
        Map<String, List<String>> named = new TreeMap<>();
        Main.line()
                .getSubcommands()
                .forEach(
                        (name, command) -> {
                            var option = command.getCommandSpec().findOption("--json");
                            if (option != null) {
                                Matcher matcher =
                                        SCHEMA.matcher(String.join(" ", option.description()));
                                named.put(
                                        name,
                                        matcher.results().map(found -> found.group(1)).toList());
                            }
                        });
        return named;
    }

    static Stream<String> lines() {
        return Stream.of(
                "alarms --json",
                "alarms --json --all",
                "alarms --json --history 1",
                "alarms --json --health --since 2026-01-05",
                "backtest --json --set ratio.warning=1.3",
                "baseline --json",
                "journal --json",
                "machines --json",
                "replay --json jet-1/11",
                "replay --json --machine jet-2 --since 2026-01-05",
                "settings --json",
                "simulate --json",
                "startups --json",
                "store --json",
                "why --json jet-1/11",
                "why --json jet-2",
                "why --json --alarm 1",
                "why --json --score");
    }

    @Test
    void every_command_that_prints_json_names_its_schema_and_is_tried_here() {
        TreeSet<String> tried = new TreeSet<>();
        lines().forEach(line -> tried.add(line.split(" ")[0]));

        assertThat(named().values()).allMatch(schemas -> !schemas.isEmpty());
        assertThat(named().keySet()).isEqualTo(tried);
    }

    @ParameterizedTest
    @MethodSource("lines")
    void what_a_command_prints_is_as_the_schema_says_and_has_no_field_that_it_does_not_tell(
            String line) throws IOException {
        String[] words = line.split(" ");
        String[] rest = Arrays.copyOfRange(words, 1, words.length);

        Ran ran =
                List.of("settings", "simulate").contains(words[0])
                        ? Ran.leat(words)
                        : site.leat(words[0], rest);

        JsonNode json = StoredSite.json(ran);
        String schema = json.get("schema").asText().replaceAll("leat\\.|/1", "") + ".schema.json";
        assertThat(named().get(words[0])).contains(schema);
        assertThat(SchemaFile.read(schema).problems(json)).isEmpty();
    }

    @Test
    void the_documents_that_are_tried_have_something_in_every_list() throws IOException {
        JsonNode alarms = site.json("alarms", "--json");
        JsonNode machines = site.json("baseline", "--json").get("machines");

        assertThat(alarms.get("alarms").findValuesAsText("state")).contains("shelved");
        assertThat(alarms.get("in_service")).hasSize(1);
        assertThat(machines.get(0).get("baseline").isNull()).isFalse();
        assertThat(site.json("journal", "--json").get("journal")).isNotEmpty();
        assertThat(site.json("backtest", "--json", "--set", "ratio.warning=1.3").get("changes"))
                .isNotEmpty();
    }

    @Test
    void a_schema_finds_a_field_that_it_does_not_tell_of_and_one_that_is_wrong()
            throws IOException {
        SchemaFile schema = SchemaFile.read("journal.schema.json");
        JsonNode json =
                new com.fasterxml.jackson.databind.ObjectMapper()
                        .readTree(
                                """
                                {"schema": "leat.journal/1", "journal": [{"machine": "jet-1",
                                 "at": "noon", "entry": "note", "by": "kim", "text": "",
                                 "found": "", "mood": 1}]}
                                """);

        assertThat(schema.problems(json))
                .hasSize(2)
                .anyMatch(problem -> problem.contains("/journal/0/at"))
                .contains("/journal/*/mood is not in the schema");
    }

    @ParameterizedTest
    @CsvSource({
        "alarms, /properties/alarms/items/properties/rule/enum, rules",
        "alarms, /properties/alarms/items/properties/channel/enum, channels",
        "alarms, /properties/alarms/items/properties/grade/enum, grades",
        "alarms, /properties/alarms/items/properties/state/enum, states",
        "alarms, /properties/alarms/items/properties/event/enum, events",
        "backtest, /properties/weeks/items/properties/rule/enum, rules",
        "backtest, /properties/weeks/items/properties/grade/enum, grades",
        "backtest, /properties/changes/items/properties/rule/enum, rules",
        "backtest, /properties/changes/items/properties/channel/enum, channels",
        "backtest, /properties/changes/items/properties/kind/enum, kinds",
        "backtest, /properties/machines/items/properties/limits_from/enum, sources",
        "backtest, /properties/changes/items/properties/before/anyOf/1/properties/grade/enum, grades",
        "baseline, /properties/machines/items/properties/learning/anyOf/1/properties/cause/enum, causes",
        "journal, /properties/journal/items/properties/entry/enum, entries",
        "startups, /properties/startups/items/properties/verdict/enum, verdicts"
    })
    void a_schema_knows_every_word(String schema, String pointer, String words) throws IOException {
        assertThat(SchemaFile.read(schema + ".schema.json").words(pointer))
                .containsExactlyInAnyOrderElementsOf(WORDS.get(words));
    }

    private static final Map<String, List<String>> WORDS =
            Map.of(
                    "rules", all(Rule.values(), Rule::key),
                    "channels", all(Channel.values(), Channel::key),
                    "states", all(AlarmState.values(), AlarmState::key),
                    "events", all(AlarmEvent.values(), AlarmEvent::key),
                    "grades", all(Grade.values(), JsonOutputsTest::lower),
                    "kinds", all(Backtest.Effect.values(), JsonOutputsTest::lower),
                    "sources", all(BacktestPlan.Source.values(), JsonOutputsTest::lower),
                    "causes", all(Learning.Cause.values(), JsonOutputsTest::lower),
                    "verdicts", all(StartupVerdict.Outcome.values(), JsonOutputsTest::lower),
                    "entries", all(Order.Entry.values(), entry -> lower(entry).replace('_', '-')));

    private static <T> List<String> all(T[] values, Function<T, String> word) {
        return Stream.of(values).map(word).toList();
    }

    private static String lower(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT);
    }
}
