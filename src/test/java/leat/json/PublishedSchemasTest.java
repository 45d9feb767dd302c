package leat.json;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The schemas of what commands print are made from the records that are printed. After a change of
 * one: {@code mvn test -Dtest=PublishedSchemasTest -Dleat.regenerate=true}, then write into the
 * schema what a new field means.
 */
class PublishedSchemasTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    @ParameterizedTest
    @ValueSource(
            strings = {
                "cli.AlarmsCommand",
                "cli.BacktestJson",
                "cli.BaselineCommand",
                "cli.HealthSheet",
                "cli.JournalCommand",
                "cli.MachinesJson",
                "cli.ScenarioList",
                "cli.SettingsCommand",
                "cli.StartupsCommand",
                "cli.StoreCommand",
                "cli.WhyCommand",
                "cli.WhyScore",
                "page.PageHealth",
                "replay.ReplayJson"
            })
    void a_schema_says_what_its_record_says(String printer) throws Exception {
        Class<?> document = Class.forName("leat." + printer + "$Told");
        String name = document.getAnnotation(Published.class).value();
        Path file = Path.of("config", name.replaceAll("leat\\.|/[0-9]+", "") + ".schema.json");
        JsonNode former = JSON.readTree(Files.readString(file));

        String made = printed(SchemaMaker.make(document, former));

        if (Boolean.getBoolean("leat.regenerate")) {
            Files.writeString(file, made);
        }
        assertThat(Files.readString(file)).isEqualTo(made);
        assertThat(without(JSON.readTree(made), ""))
                .as("fields that nobody has explained")
                .isEmpty();
    }

    private static String printed(JsonNode schema) throws IOException {
        DefaultIndenter indent = new DefaultIndenter("  ", "\n");
        DefaultPrettyPrinter printer =
                new DefaultPrettyPrinter(
                                Separators.createDefaultInstance()
                                        .withObjectFieldValueSpacing(Separators.Spacing.AFTER))
                        .withObjectIndenter(indent)
                        .withArrayIndenter(indent);
        return JSON.writer(printer).writeValueAsString(schema) + "\n";
    }

    /** Paths of the fields that have no description. */
    private static List<String> without(JsonNode schema, String where) {
        List<String> found = new ArrayList<>();
        for (var field : schema.path("properties").properties()) {
            String path = where + "/" + field.getKey();
            if (!field.getValue().has("description")) {
                found.add(path);
            }
            found.addAll(without(field.getValue(), path));
        }
        for (String inner : List.of("items", "additionalProperties")) {
            if (schema.has(inner)) {
                found.addAll(without(schema.get(inner), where + "/" + inner));
            }
        }
        for (JsonNode branch : schema.path("anyOf")) {
            found.addAll(without(branch, where));
        }
        return found;
    }
}
