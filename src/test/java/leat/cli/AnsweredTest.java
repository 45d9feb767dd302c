package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order.Entry;
import leat.signal.Order.Journal;
import leat.signal.PressureUnit;
import leat.words.CauseWords;
import leat.words.Language;
import leat.words.Numbers;
import leat.words.Phrases;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What work and answers do to the ranking, by the real weights, of an invented machine. */
class AnsweredTest {

    private static final CauseWords WORDS =
            new CauseWords(
                    Phrases.in(Language.ENGLISH),
                    new Numbers(Language.ENGLISH, PressureUnit.PSI, ZoneOffset.UTC));

    private static final long MINUTE = 60_000_000L;
    private static final long SEVEN = StoredSite.SIX + 60 * MINUTE;

    @TempDir Path folder;
    private StoredSite site;

    @BeforeEach
    void store() throws IOException {
        site =
                StoredSite.in(folder)
                        .saw(
                                "jet-2",
                                StoredSite.pressures("worn-booster", "jet-1", StoredSite.SIX));
    }

    private void wrote(Entry entry, String found) {
        site.saw("jet-2", List.of(new Instruction(SEVEN, "kim", new Journal(entry, "", found))));
    }

    private JsonNode why() throws IOException {
        return site.json("why", "jet-2", "--json");
    }

    private static double weight(JsonNode why, Cause cause) {
        return StreamSupport.stream(why.get("causes").spliterator(), false)
                .filter(one -> one.get("cause").asText().equals(cause.key()))
                .mapToDouble(one -> one.get("weight").asDouble())
                .sum();
    }

    private static List<String> answers(JsonNode why) {
        return StreamSupport.stream(why.get("answers").spliterator(), false)
                .map(JsonNode::asText)
                .toList();
    }

    @Test
    void what_recovers_is_not_set_low_and_what_stays_low_is() throws IOException {
        JsonNode before = why();
        wrote(Entry.ANSWER, "recovers");
        JsonNode recovers = why();
        wrote(Entry.ANSWER, "stays-low");
        JsonNode staysLow = why();

        assertThat(answers(before)).isEmpty();
        assertThat(answers(recovers)).containsExactly("recovers");
        assertThat(answers(staysLow)).containsExactly("stays-low");
        assertThat(weight(recovers, Cause.WORN_BOOSTER))
                .isGreaterThan(weight(staysLow, Cause.WORN_BOOSTER));
        assertThat(weight(recovers, Cause.SET_LOW)).isLessThan(weight(staysLow, Cause.SET_LOW));
        assertThat(weight(before, Cause.WORN_BOOSTER))
                .isBetween(
                        weight(staysLow, Cause.WORN_BOOSTER), weight(recovers, Cause.WORN_BOOSTER));
    }

    @ParameterizedTest
    @ValueSource(strings = {"PUMP_REPLACED", "FILTER_CHANGED", "STRAINER_CLEANED", "SERVICED"})
    void a_slow_start_after_the_line_was_open_is_air(Entry work) throws IOException {
        List<Input> slow = StoredSite.pressures("air-after-service", "jet-1", SEVEN + MINUTE);
        site.saw("jet-1", slow);
        JsonNode unknown = site.json("why", "jet-1/1", "--json");
        wrote(work, "");
        site.saw("jet-2", slow);
        JsonNode known = site.json("why", "jet-2/2", "--json");

        assertThat(known.get("causes").get(0).get("cause").asText()).isEqualTo("air");
        assertThat(weight(known, Cause.AIR)).isGreaterThan(weight(unknown, Cause.AIR));
    }

    @Test
    void after_work_and_no_start_since_nothing_has_been_seen() throws IOException {
        wrote(Entry.SERVICED, "");

        JsonNode causes = why().get("causes");

        assertThat(causes).hasSize(1);
        assertThat(causes.get(0).get("cause").asText()).isEqualTo("unknown");
        assertThat(causes.get(0).get("weight").asDouble()).isEqualTo(1);
        assertThat(causes.get(0).has("check")).isFalse();
        assertThat(site.leat("why", "jet-2").out().replaceAll("\\s+", " "))
                .contains("Nothing has been seen of it that counts");
    }

    @Test
    void an_answered_check_is_not_asked_for_again() throws IOException {
        Check asked = check(why());

        wrote(Entry.ANSWER, asked.answers().get(0).key());

        assertThat(why().get("causes").get(0).path("check").asText())
                .isNotEqualTo(WORDS.check(asked));
    }

    @Test
    void an_answer_that_no_check_has_is_told_with_those_of_the_present_check_first()
            throws IOException {
        List<Answer> asked = check(why()).answers();

        for (String about : List.of("jet-2", "jet-2/1", "1")) {
            Ran ran = site.leat("answer", about, "yes");

            assertThat(ran.code()).isEqualTo(2);
            assertThat(ran.err())
                    .startsWith(
                            asked.stream()
                                    .map(Answer::key)
                                    .collect(
                                            Collectors.joining(
                                                    ", ",
                                                    "'yes' is no answer; asked for now: ",
                                                    "; of other checks: ")));
        }
    }

    private static Check check(JsonNode why) {
        String said = why.get("causes").get(0).get("check").asText();
        return Arrays.stream(Check.values())
                .filter(one -> WORDS.check(one).equals(said))
                .findFirst()
                .orElseThrow();
    }
}
