package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/**
 * After a change of settings: {@code mvn test -Dtest='SettingsTableTest,SiteSchemaTest'
 * -Dleat.regenerate=true}.
 */
class SiteSchemaTest {

    private static final Path FILE = Path.of("config", "site.schema.json");
    private static final ObjectMapper JSON = new ObjectMapper();

    private static String printed() throws JsonProcessingException {
        DefaultIndenter indent = new DefaultIndenter("  ", "\n");
        DefaultPrettyPrinter printer =
                new DefaultPrettyPrinter().withObjectIndenter(indent).withArrayIndenter(indent);
        return JSON.writer(printer).writeValueAsString(SiteSchema.schema()) + "\n";
    }

    private static JsonNode schema() throws IOException {
        return JSON.readTree(Files.readString(FILE));
    }

    private static List<Error> refusals(String yaml) throws IOException {
        Schema schema =
                SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                        .getSchema(schema());
        LoadSettings settings = LoadSettings.builder().setSchema(new CoreSchema()).build();
        JsonNode document = JSON.valueToTree(new Load(settings).loadFromString(yaml));
        return schema.validate(document);
    }

    @Test
    void the_file_in_config_is_the_one_that_the_loader_s_declarations_give() throws IOException {
        if (Boolean.getBoolean("leat.regenerate")) {
            Files.writeString(FILE, printed());
        }

        assertThat(Files.readString(FILE).replace("\r\n", "\n")).isEqualTo(printed());
    }

    @Test
    void the_schema_itself_is_valid() throws IOException {
        Schema meta =
                SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                        .getSchema(
                                SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));

        assertThat(meta.validate(schema())).isEmpty();
    }

    static List<Path> examples() throws IOException {
        return ExamplesTest.examples();
    }

    @ParameterizedTest
    @MethodSource("examples")
    void every_example_is_valid(Path example) throws IOException {
        assertThat(refusals(Files.readString(example))).isEmpty();
    }

    @Test
    void the_site_that_uses_every_key_is_valid() throws IOException {
        assertThat(refusals(GoodSite.TEXT)).isEmpty();
    }

    @Test
    void a_site_whose_people_may_give_instructions_is_valid() throws IOException {
        assertThat(refusals(GoodSite.TEXT + InstructionsTest.INSTRUCTIONS)).isEmpty();
    }

    @Test
    void the_words_are_those_of_the_types_that_the_loader_fills() throws IOException {
        JsonNode schema = schema();

        assertThat(words(schema, "/$defs/pressure_channel/properties/unit/enum"))
                .containsExactlyElementsOf(
                        List.of(PressureUnit.values()).stream().map(PressureUnit::symbol).toList());
        assertThat(
                        words(
                                schema,
                                "/$defs/contact_channel/properties/register/properties/table/enum"))
                .containsExactlyElementsOf(lower(Point.Table.values()));
        assertThat(
                        words(
                                schema,
                                "/$defs/pressure_channel/properties/register/properties/type/enum"))
                .containsExactlyElementsOf(lower(Point.NumberType.values()));
        assertThat(words(schema, "/$defs/topic/properties/time_format/enum"))
                .containsExactlyElementsOf(lower(Point.TimeFormat.values()));
        assertThat(
                        words(
                                schema,
                                "/properties/tell/additionalProperties/properties/about/properties/from/enum"))
                .containsExactlyElementsOf(
                        List.of(Grade.values()).stream().map(Enum::name).toList());
    }

    @Test
    void the_limits_and_channels_are_those_of_the_core() throws IOException {
        TreeSet<String> limits = new TreeSet<>();
        JsonNode groups = schema().at("/$defs/limits/properties");
        groups.properties()
                .forEach(
                        g ->
                                g.getValue()
                                        .at("/properties")
                                        .fieldNames()
                                        .forEachRemaining(k -> limits.add(g.getKey() + "." + k)));
        List<String> channels = new ArrayList<>();
        schema().at("/properties/machines/additionalProperties/properties/channels/properties")
                .fieldNames()
                .forEachRemaining(channels::add);

        assertThat(limits)
                .isEqualTo(
                        new TreeSet<>(List.of(Limit.values()).stream().map(Limit::key).toList()));
        assertThat(channels)
                .containsExactlyElementsOf(
                        List.of(Channel.values()).stream().map(Channel::key).toList());
    }

    private static List<String> words(JsonNode schema, String pointer) {
        List<String> words = new ArrayList<>();
        assertThat(schema.at(pointer).isArray()).as(pointer).isTrue();
        schema.at(pointer).forEach(word -> words.add(word.asText()));
        return words;
    }

    private static List<String> lower(Enum<?>[] values) {
        return List.of(values).stream().map(v -> v.name().toLowerCase(Locale.ROOT)).toList();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "  name: Boatyard => ",
                "time_zone: => timezone:",
                "show_pressure_in: bar => show_pressure_in: psig",
                "keep_samples: 30 d => keep_samples: 30",
                "keep_samples: 30 d => keep_samples: 30 days",
                "keep_samples: 30 d => keep_samples: [ 30 d ]",
                "host: 127.0.0.1 => host: 127.0.0.1:502",
                "port: 1502 => port: 70000",
                "port: 1502 => port: \"1502\"",
                "port: 1502 => port: 15.5",
                "url: tcp:// => url: mqtt://",
                "password: { env: LEAT_MQTT_PASSWORD } => password: hunter2",
                "password: { env: LEAT_MQTT_PASSWORD } => password: { }",
                "password: { env: LEAT_MQTT_PASSWORD } => password: { env: A, file: b }",
                "      user: leat\n => ",
                "keep_alive: 15 s => keep_alive: fast",
                "status_topic: leat/boatyard/status => status_topic: leat/#",
                "level: { set: 100 psi => level: { set: 100",
                "level: { set: 100 psi => level: { sett: 100 psi",
                "rest: { bleeds: no => rest: { bleeds: maybe",
                "falling: 0.2 psi/s => falling: 0.2 psi",
                "machines: => machine:",
                "  jet-1: =>   Jet 1:",
                "      inlet: =>       inlets:",
                "      filtered: =>       filter:",
                "unit_id: 1, table: input_register => unit_id: 256, table: input_register",
                "table: input_register => table: coil",
                "table: coil => table: coils",
                "table: coil,  => ",
                "address: 3 => address: -1",
                "type: uint16 => type: word",
                "word_order: CDAB => word_order: cdab",
                "raw: 4095 => raw: 4095 mA",
                "current: 20.5 mA => current: 20.5",
                "at: 4 mA => at: 4 V",
                "reads: 0 psi }, { at: 20 mA, reads: 200 psi } ] => reads: 0 psi } ]",
                "        unit: psi\n => ",
                "        unit: psi\n =>         unit: psi\n        scale: [ { at: 0, reads: 0 bar }, { at: 1, reads: 1 bar } ]\n",
                "        unit: psi\n =>         unit: psi\n        loop: [ { raw: 0, current: 0 mA }, { raw: 1, current: 1 mA } ]\n",
                "qos: 1 => qos: 3",
                "value: /psi => value: psi",
                "time: /t,  => ",
                "silent_after: 5 s => silent_after: 5",
                "range: [ -15 psi, 300 psi ] => range: [ 300 psi ]",
                "inverted: no => inverted: off",
                "from: ADVISORY => from: advisory",
                "connection: broker,  => ",
                "topic_prefix: leat/boatyard => topic_prefix: leat/",
                "by: { log: { } } => by: { mail: { } }",
                "by: { log: { } } => by: { }",
            })
    void what_the_schema_refuses_the_loader_refuses_too(String change) throws IOException {
        String[] parts = change.split(" => ?", 2);
        String text = GoodSite.with(parts[0], parts[1]);

        assertThat(refusals(text)).as("schema").isNotEmpty();
        assertThat(GoodSite.problems(text)).as("loader").isNotEmpty();
    }
}
