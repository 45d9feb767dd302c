package leat.replay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;
import leat.Gear;
import leat.bench.scenario.Catalogue;
import leat.diagnose.Cause;
import leat.report.SchemaFile;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What a replay says of the causes of a recording and of each start in it. */
class RecordedCausesTest {

    private static final List<String> LAST_WEEKS =
            List.of("healthy-weeks", "wear-over-weeks", "drifting-transducer");

    private static final ObjectMapper MAPPER = new ObjectMapper();

    private static Replayed replayed(List<Input> inputs) {
        return Replay.of(Played.settings("jet-1"), inputs::forEach);
    }

    private static JsonNode json(Replayed replayed) throws IOException {
        JsonNode json =
                MAPPER.readTree(
                        new ReplayJson(Optional.empty(), OptionalLong.empty()).write(replayed));
        assertThat(SchemaFile.read("replay.schema.json").problems(json)).isEmpty();
        return json;
    }

    private static void assertWeighed(JsonNode causes) {
        List<Double> weights = new ArrayList<>();
        List<String> keys = new ArrayList<>();
        for (JsonNode cause : causes) {
            weights.add(cause.get("weight").asDouble());
            keys.add(cause.get("cause").asText());
            assertThat(cause.get("for").isArray()).isTrue();
            assertThat(cause.get("against").isArray()).isTrue();
        }

        assertThat(weights)
                .isNotEmpty()
                .isSortedAccordingTo(java.util.Comparator.reverseOrder())
                .allMatch(weight -> weight > 0);
        assertThat(weights.stream().mapToDouble(Double::doubleValue).sum())
                .isEqualTo(1, within(1e-9));
        assertThat(keys).doesNotHaveDuplicates().allMatch(key -> Cause.byKey(key).isPresent());
    }

    /** One that is over in minutes, of the first machine; by night all such. */
    static Stream<String> scenarios() {
        List<String> everyday =
                List.of("healthy", "worn-booster", "not-turning", "broken-loop", "swapped-cables");
        return Gear.isThorough()
                ? Catalogue.names().stream().filter(name -> !LAST_WEEKS.contains(name))
                : everyday.stream();
    }

    @ParameterizedTest
    @MethodSource("scenarios")
    void causes_of_a_recording_and_of_each_start_are_weighed(String scenario) throws IOException {
        JsonNode json = json(replayed(Played.of(scenario, "jet-1").inputs(Played.START)));

        assertWeighed(json.get("causes"));
        for (JsonNode start : json.get("startups")) {
            assertWeighed(start.get("causes"));
        }
    }

    @ParameterizedTest
    @CsvSource({
        "healthy, HEALTHY",
        "not-turning, NOT_TURNING",
        "coupling-slips, COUPLING_SLIPS",
        "set-too-low, SET_LOW",
        "air-after-service, AIR",
        "stuck-transducer, STUCK",
        "broken-loop, OPEN_LOOP",
        "swapped-cables, SWAPPED"
    })
    void what_is_gross_and_separable_is_named_without_any_baseline(String scenario, Cause cause) {
        Replayed replayed = replayed(Played.of(scenario, "jet-1").inputs(Played.START));

        assertThat(replayed.why().first().cause()).isEqualTo(cause);
    }

    @Test
    void a_recording_of_nothing_is_of_unknown_cause() throws IOException {
        JsonNode causes = json(replayed(List.of())).get("causes");

        assertThat(causes).hasSize(1);
        assertThat(causes.get(0).get("cause").asText()).isEqualTo("unknown");
        assertThat(causes.get(0).get("weight").asDouble()).isEqualTo(1);
    }

    @Test
    void a_recording_without_a_start_has_what_is_wrong_with_its_signals() throws IOException {
        List<Input> inputs = new ArrayList<>();
        for (long at = Played.START; at < Played.START + 60_000_000; at += 50_000) {
            inputs.add(Reading.good(Channel.INLET, at, 42 + at % 7 / 10.0));
            inputs.add(Reading.bad(Channel.BOOSTED, at, Quality.LOOP_BROKEN));
            if (at % Tick.PERIOD_MICROS == 0) {
                inputs.add(new Tick(at));
            }
        }

        Replayed replayed = replayed(inputs);

        assertThat(replayed.startups()).isEmpty();
        assertThat(replayed.observations()).hasSize(1);
        assertThat(replayed.observations().get(0).signals()).hasSize(1);
        assertWeighed(json(replayed).get("causes"));
    }

    @Test
    void a_run_that_lasts_at_the_end_counts_as_far_as_it_came() {
        List<Input> inputs = Played.of("worn-booster", "jet-1").inputs(Played.START);

        Replayed cut = replayed(inputs.subList(0, inputs.size() / 2));

        assertThat(cut.observations()).hasSize(1);
        assertThat(cut.observations().get(0).run()).isPresent();
        assertThat(cut.startups().get(0).seen()).isEqualTo(cut.observations().get(0));
        assertThat(cut.why().observations()).isEqualTo(1);
    }

    @Test
    void the_stop_after_a_run_belongs_to_its_start() {
        Replayed replayed = replayed(Played.of("leaking-valve", "jet-1").inputs(Played.START));

        assertThat(replayed.startups()).hasSize(1);
        assertThat(replayed.startups().get(0).seen().rest().orElseThrow().boostedPsi().get())
                .isGreaterThan(10);
    }
}
