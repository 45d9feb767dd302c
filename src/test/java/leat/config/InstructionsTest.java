package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class InstructionsTest {

    static final String INSTRUCTIONS =
            """
            instructions:
              connection: broker
              topic: leat/boatyard/instructions
              reply_topic: leat/boatyard/answers
              window: 90 s
              people:
                anna: { token: { env: ANNA } }
                ben: { token: { file: ben.token } }
            """;

    private static final Map<String, String> ENVIRONMENT =
            Map.of(
                    "LEAT_MQTT_PASSWORD",
                    "s3cret",
                    "ANNA",
                    "3f1c".repeat(16),
                    "BEN",
                    "a94b".repeat(16),
                    "SHORT",
                    "x".repeat(31));

    @TempDir Path folder;

    @Test
    void people_are_read_with_their_tokens() throws IOException {
        LoadedSite loaded = load(GoodSite.TEXT + INSTRUCTIONS);

        InstructionSettings read = loaded.site().orElseThrow().instructions().orElseThrow();
        assertThat(read.connection()).isEqualTo("broker");
        assertThat(read.topic()).isEqualTo("leat/boatyard/instructions");
        assertThat(read.replyTopic()).isEqualTo("leat/boatyard/answers");
        assertThat(read.window()).isEqualTo(Duration.ofSeconds(90));
        assertThat(read.people()).extracting(p -> p.name()).containsExactly("anna", "ben");
        assertThat(read.people())
                .extracting(p -> p.token().orElseThrow().reveal())
                .containsExactly("3f1c".repeat(16), "a94b".repeat(16));
        assertThat(loaded.toString()).doesNotContain("3f1c3f1c", "a94ba94b");
    }

    @Test
    void nobody_may_give_instructions_unless_it_is_said() throws IOException {
        assertThat(load(GoodSite.TEXT).site().orElseThrow().instructions()).isEmpty();
    }

    @Test
    void answers_come_beside_the_topic_and_two_minutes_hold_unless_it_is_said() throws IOException {
        String sparse =
                INSTRUCTIONS
                        .replace("  reply_topic: leat/boatyard/answers\n", "")
                        .replace("  window: 90 s\n", "");

        InstructionSettings read =
                load(GoodSite.TEXT + sparse).site().orElseThrow().instructions().orElseThrow();

        assertThat(read.replyTopic()).isEqualTo("leat/boatyard/instructions/reply");
        assertThat(read.window()).isEqualTo(Duration.ofMinutes(2));
    }

    @Test
    void broker_to_which_leat_does_not_log_in_is_refused() throws IOException {
        String open =
                GoodSite.with(
                        "      user: leat\n      password: { env: LEAT_MQTT_PASSWORD }\n", "");
        String userAlone = GoodSite.with("      password: { env: LEAT_MQTT_PASSWORD }\n", "");

        assertThat(load(open + INSTRUCTIONS).problems()).hasSize(1);
        assertThat(load(userAlone + INSTRUCTIONS).problems())
                .singleElement()
                .satisfies(
                        problem -> {
                            assertThat(problem.path()).isEqualTo("instructions.connection");
                            assertThat(problem.what()).contains("leat does not log in to broker");
                            assertThat(problem.allowed())
                                    .isEqualTo("user and password under connections.broker.mqtt");
                        });
    }

    @Test
    void archived_site_is_read_without_tokens() {
        InstructionSettings read =
                GoodSite.site(GoodSite.TEXT + INSTRUCTIONS).instructions().orElseThrow();

        assertThat(read.people())
                .extracting(InstructionSettings.Person::token)
                .containsOnly(Optional.empty());
    }

    @ParameterizedTest(name = "{1} instead of {0}")
    @CsvSource(
            delimiterString = "=>",
            textBlock =
                    """
                    connection: broker => connection: cabinet-1 => instructions.connection => is a Modbus TCP device
                    connection: broker => connection: brokr => instructions.connection => Did you mean broker?
                    leat/boatyard/answers => leat/boatyard/instructions => instructions.reply_topic => hear its own answers
                    leat/boatyard/answers => leat/boatyard/status => instructions.reply_topic => own status topic
                    leat/boatyard/instructions => leat/boatyard/status => instructions.topic => own status topic
                    leat/boatyard/instructions => yard/jet-1/boosted => instructions.topic => the topic of a channel
                    leat/boatyard/instructions => leat/# => instructions.topic => without the wildcards
                    window: 90 s => window: 1 h => instructions.window => 10 s to 10 min
                    window: 90 s => windows: 90 s => instructions.windows => Did you mean window?
                    { env: ANNA } => { env: SHORT } => instructions.people.anna.token => too short to sign with ; 32 characters or more
                    { env: ANNA } => { env: NOWHERE } => instructions.people.anna.token.env => is not set
                    { env: ANNA } => { env: BEN } => instructions.people.ben.token => is the token of anna too
                    { env: ANNA } => 3f1c3f1c3f1c => instructions.people.anna.token => never the secret itself
                    anna: => Anna: => instructions.people.Anna => cannot be the name of a person
                    """)
    void mistakes_are_told_where_they_stand(
            String target, String replacement, String path, String words) throws IOException {
        LoadedSite loaded =
                load(GoodSite.TEXT + INSTRUCTIONS.replace(target.strip(), replacement.strip()));

        assertThat(loaded.problems()).hasSize(1);
        Problem problem = loaded.problems().get(0);
        assertThat(problem.path()).isEqualTo(path.strip());
        assertThat(problem.what() + " " + problem.allowed())
                .contains(List.of(words.strip().split(" ; ")));
    }

    private LoadedSite load(String text) throws IOException {
        Files.writeString(folder.resolve("ben.token"), "a94b".repeat(16) + "\n");
        Path file = Files.writeString(folder.resolve("site.yaml"), text);
        return SiteFile.load(file, name -> Optional.ofNullable(ENVIRONMENT.get(name)));
    }
}
