package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Suspect;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order.Entry;
import leat.signal.Order.Journal;
import leat.store.Said;
import leat.store.StoreReader;
import leat.watch.Outcome;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What leat had said beside what people found, in the store of two invented machines. */
class WhyScoreTest {

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

    private StoredSite wrote(long atMicros, Entry entry, String found) {
        return site.saw(
                "jet-2", List.of(new Instruction(atMicros, "kim", new Journal(entry, "", found))));
    }

    private Suspect called() {
        List<Diagnosis> why = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(site.database())) {
            reader.outcomes(
                    Outcome.AlarmChanged.class,
                    "jet-2",
                    0,
                    Long.MAX_VALUE,
                    (Said said) ->
                            ((Outcome.AlarmChanged) said.outcome()).why().ifPresent(why::add));
        }
        return why.get(why.size() - 1).first();
    }

    private List<String> score(String... words) {
        String[] all = new String[words.length + 1];
        all[0] = "--score";
        System.arraycopy(words, 0, all, 1, words.length);
        Ran ran = site.leat("why", all);
        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isZero();
        return ran.out().lines().toList();
    }

    @Test
    void what_the_call_named_first_stands_beside_what_was_found() {
        String other = called().cause() == Cause.AIR ? "set-low" : "air";

        wrote(SEVEN, Entry.PUMP_REPLACED, called().cause().key());
        wrote(SEVEN + 1, Entry.NOTE, other);

        List<String> lines = score();
        String said = called().cause().key() + " [0-9]+ %";
        assertThat(lines.get(0)).matches("when +machine +said +found +right");
        assertThat(lines.get(1))
                .matches("2026-01-05  jet-2 +" + said + " +" + called().cause().key() + " +yes");
        assertThat(lines.get(2)).matches("2026-01-05  jet-2 +" + said + " +" + other + " +no");
        assertThat(lines.get(3)).startsWith("right 1 of 2");
        assertThat(lines).allMatch(line -> line.length() <= 80);
    }

    @Test
    void a_service_is_one_piece_of_work_whatever_is_written_while_it_lasts() {
        wrote(SEVEN, Entry.SERVICE_ON, "");
        wrote(SEVEN + 1, Entry.COUPLING_GAP, "");
        List<Input> tried = StoredSite.pressures("demo", "jet-2", SEVEN + MINUTE);
        site.saw("jet-2", tried);
        long after = tried.get(tried.size() - 1).atMicros() + 1;
        wrote(after, Entry.PUMP_REPLACED, called().cause().key());
        wrote(after + 1, Entry.SERVICE_OFF, "");

        assertThat(score().get(1)).endsWith("yes");
    }

    @Test
    void what_was_said_before_the_last_work_is_of_another_fault() {
        String before = called().cause().key();
        wrote(SEVEN, Entry.SERVICED, "");
        List<Input> sound = StoredSite.pressures("healthy", "jet-1", SEVEN + MINUTE);
        site.saw("jet-2", sound);
        long after = sound.get(sound.size() - 1).atMicros() + 1;

        wrote(after, Entry.NOTE, before);

        assertThat(score().get(1)).matches(".* [0-9]+ % +" + before + " +no");
    }

    @Test
    void where_nothing_had_been_seen_nothing_is_counted() {
        site.saw(
                "jet-1",
                List.of(new Instruction(SEVEN, "kim", new Journal(Entry.NOTE, "", "air"))));

        assertThat(score("jet-1").get(1)).matches("2026-01-05  jet-1 +- +air +-");
        assertThat(score("jet-1").get(2)).startsWith("Before any of these");
    }

    @Test
    void nobody_has_found_anything_yet() {
        assertThat(score("--wide")).singleElement().asString().contains("journal MACHINE --did");
        assertThat(score("--lang", "de", "--wide")).singleElement().asString().contains("MASCHINE");
    }

    @Test
    void for_programs_it_is_one_document() throws IOException {
        wrote(SEVEN, Entry.PUMP_REPLACED, called().cause().key());

        JsonNode told = site.json("why", "--score", "--json");

        assertThat(told.get("schema").asText()).isEqualTo("leat.score/1");
        assertThat(told.get("right").asInt()).isEqualTo(1);
        assertThat(told.get("said").asInt()).isEqualTo(1);
        JsonNode line = told.get("found").get(0);
        assertThat(line.get("said").asText()).isEqualTo(called().cause().key());
        assertThat(line.get("weight").asDouble()).isCloseTo(called().weight(), within(5.1e-5));
        assertThat(line.get("right").asBoolean()).isTrue();
    }

    @Test
    void a_start_has_no_score() {
        Ran ran = site.leat("why", "--score", "jet-2/1");

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("machines are");
    }
}
