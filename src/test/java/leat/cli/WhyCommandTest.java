package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.StreamSupport;
import leat.diagnose.Cause;
import leat.store.Snapshot;
import leat.store.Store;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Why, asked of the store of two invented machines: jet-1 has learned its baseline in ten starts
 * and then lost pressure in three; the booster of jet-2 is worn, and nothing else is known of it.
 */
class WhyCommandTest {

    private static final String CAUTION = "Caution: ";

    @TempDir static Path folder;
    private static StoredSite site;

    @BeforeAll
    static void live() throws IOException {
        site =
                StoredSite.in(folder)
                        .saw("jet-1", BaselineCommandTest.starts(10, 3))
                        .saw(
                                "jet-2",
                                StoredSite.pressures("worn-booster", "jet-1", StoredSite.SIX));
    }

    private static List<String> lines(Ran ran) {
        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isZero();
        return ran.out().lines().toList();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "jet-1/13",
                "jet-1/2",
                "jet-1",
                "jet-2",
                "jet-2/1",
                "--alarm=1",
                "jet-1/13 --lang de",
                "jet-2 --lang de",
                "--alarm=1 --lang de",
                "jet-2 --ascii"
            })
    void answer_fits_on_one_screen_of_80_columns(String words) {
        List<String> lines = lines(site.leat("why", words.split(" ")));

        assertThat(lines).allMatch(line -> line.length() <= 80).hasSizeBetween(10, 50);
    }

    @Test
    void sentence_comes_first_then_the_curve_then_the_reasons_and_what_they_rest_on() {
        List<String> lines = lines(site.leat("why", "jet-2/1", "--ascii"));

        String all = String.join("\n", lines);
        assertThat(lines.get(0)).startsWith("jet-2/1, start of 2026-01-05 ");
        assertThat(lines.get(1)).matches("[A-Z].*[a-z].*").doesNotStartWith("Curve");
        assertThat(all.indexOf("3 s before the start")).isPositive();
        assertThat(all.indexOf(" for: ")).isGreaterThan(all.indexOf("3 s before the start"));
        assertThat(all.indexOf("Basis: ")).isGreaterThan(all.indexOf(" for: "));
        assertThat(all.indexOf(CAUTION)).isGreaterThan(all.indexOf("Basis: "));
        assertThat(all.chars()).allMatch(c -> c < 128);
    }

    @Test
    void german_is_german_throughout() {
        String all = String.join("\n", lines(site.leat("why", "jet-2/1", "--lang", "de")));

        assertThat(all)
                .contains("Start vom", "vor dem Start", "Grundlage: ")
                .doesNotContain("start of", "before the start", "Basis: ", CAUTION);
    }

    @Test
    void sound_start_sends_nobody_to_the_machine() {
        String all = String.join("\n", lines(site.leat("why", "jet-1/2")));

        assertThat(all).doesNotContain(CAUTION, "leat answer");
    }

    @Test
    void json_has_weights_that_sum_to_1_heaviest_first() throws IOException {
        JsonNode told = site.json("why", "--json", "jet-1/13");

        List<JsonNode> causes =
                StreamSupport.stream(told.get("causes").spliterator(), false).toList();
        assertThat(causes.stream().mapToDouble(each -> each.get("weight").asDouble()).sum())
                .isBetween(0.9999, 1.0001);
        assertThat(causes)
                .isSortedAccordingTo(
                        (a, b) ->
                                Double.compare(
                                        b.get("weight").asDouble(), a.get("weight").asDouble()));
        assertThat(causes).allMatch(each -> Cause.byKey(each.get("cause").asText()).isPresent());
        assertThat(told.get("number").asText()).isEqualTo("jet-1/13");
        assertThat(told.get("observations").asInt()).isEqualTo(1);
        assertThat(told.get("known").asInt()).isEqualTo(10);
    }

    @Test
    void machine_is_judged_by_its_last_ten_starts_and_an_alarm_by_those_since_it_came()
            throws IOException {
        assertThat(site.json("why", "--json", "jet-1").get("observations").asInt()).isEqualTo(10);
        JsonNode alarm = site.json("why", "--json", "--alarm", "1");
        assertThat(alarm.get("alarm").asInt()).isEqualTo(1);
        assertThat(alarm.get("observations").asInt()).isBetween(1, 3);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "why jet-9          | leat startups",
                "why jet-1/99       | leat startups",
                "why 7              | jet-1/7 or jet-2/7",
                "why                | leat why jet-1 or leat why jet-2",
                "why --alarm 99     | leat alarms --all",
                "why jet-1 --alarm 1| not two of them",
                "why jet-1 --lang fr| en and de"
            })
    void what_cannot_be_answered_says_what_to_type_instead(String line, String instead) {
        String[] words = line.split(" ");

        Ran ran =
                site.leat(words[0], List.of(words).subList(1, words.length).toArray(new String[0]));

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err()).contains(instead);
    }

    @Test
    void start_whose_readings_are_gone_is_still_explained(@TempDir Path other) throws IOException {
        StoredSite aged = site.copyTo(other);
        aged.commit(
                (batch, hash) ->
                        batch.snapshot(
                                new Snapshot("jet-2", 1_000_000, StoredSite.SIX, 1, new byte[1])));
        try (Store store = Store.open(aged.database())) {
            assertThat(store.prune(100_000, 0)).isPositive();
        }

        List<String> lines = lines(aged.leat("why", "jet-2/1"));

        assertThat(String.join("\n", lines)).contains("no longer kept", "Basis: ");
    }
}
