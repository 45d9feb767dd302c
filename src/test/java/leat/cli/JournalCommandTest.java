package leat.cli;

import static leat.cli.Ran.leat;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.signal.Order.Journal;
import leat.signal.Tick;
import leat.store.StoreReader;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What people say of their work, as they type it while leat is down. */
class JournalCommandTest {

    private static final long SIX = StoredSite.SIX;

    @TempDir Path folder;
    private StoredSite site;
    private String at;

    @BeforeEach
    void store() throws IOException {
        site = StoredSite.in(folder);
        at = site.file().toString();
        site.commit((batch, hash) -> batch.fed("jet-1", 1, new Tick(SIX)));
    }

    @Test
    void work_is_a_word_and_so_is_what_was_found() {
        Ran ran =
                leat(
                        "journal",
                        "jet-1",
                        "gap 2 mm",
                        "--did",
                        "pump-replaced",
                        "--found",
                        "worn-booster",
                        "--site",
                        at);

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(left())
                .containsExactly(new Journal(Entry.PUMP_REPLACED, "gap 2 mm", "worn-booster"));
    }

    @Test
    void what_was_always_typed_means_what_it_always_meant() {
        leat("journal", "jet-1", "looked at it", "--site", at);
        leat("journal", "jet-1", "--serviced", "--site", at);
        leat("journal", "jet-1", "--serviced", "new seal", "--site", at);

        assertThat(left())
                .containsExactly(
                        new Journal(Entry.NOTE, "looked at it"),
                        new Journal(Entry.SERVICED, ""),
                        new Journal(Entry.SERVICED, "new seal"));
    }

    @Test
    void what_was_found_can_be_said_without_work() {
        assertThat(leat("journal", "jet-1", "--found", "healthy", "--site", at).code()).isZero();

        assertThat(left()).containsExactly(new Journal(Entry.NOTE, "", "healthy"));
    }

    @Test
    void wrong_words_are_told_with_the_right_ones() {
        Ran did = leat("journal", "jet-1", "--did", "pump", "--site", at);
        Ran found = leat("journal", "jet-1", "--found", "pump", "x", "--site", at);

        assertThat(did.code()).isEqualTo(2);
        assertThat(did.err())
                .contains("'pump' is nothing that can be done; known: serviced, pump-replaced,");
        assertThat(found.code()).isEqualTo(2);
        assertThat(found.err())
                .startsWith("'pump' is no cause; known: healthy, worn-booster, not-turning,")
                .endsWith("swapped, configuration.\n");
        assertThat(left()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"learn", "service-on", "answer", "note"})
    void what_has_a_command_of_its_own_is_no_work(String word) {
        assertThat(leat("journal", "jet-1", "--did", word, "--site", at).code()).isEqualTo(2);
    }

    @Test
    void a_note_that_is_the_word_for_work_is_asked_back() {
        Ran ran = leat("journal", "jet-1", "pump-replaced", "--site", at);

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("Say --did pump-replaced");
        assertThat(left()).isEmpty();
    }

    @Test
    void work_in_two_words_that_differ_is_asked_back() {
        Ran ran = leat("journal", "jet-1", "--serviced", "--did", "air-purged", "--site", at);

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("say one of them");
    }

    @Test
    void the_end_of_a_service_says_what_was_done_and_found() {
        Ran ran =
                leat(
                        "service",
                        "jet-1",
                        "off",
                        "--did",
                        "strainer-cleaned",
                        "--found",
                        "strainer-clogged",
                        "--why",
                        "full of sand",
                        "--site",
                        at);

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(left())
                .containsExactly(
                        new Journal(Entry.STRAINER_CLEANED, "full of sand", "strainer-clogged"),
                        new Journal(Entry.SERVICE_OFF, ""));
    }

    @Test
    void the_begin_of_a_service_has_nothing_done_yet() {
        assertThat(leat("service", "jet-1", "on", "--did", "air-purged", "--site", at).code())
                .isEqualTo(2);
        assertThat(left()).isEmpty();
    }

    @Test
    void the_help_lists_every_word() {
        String help = leat("journal", "--help").out().replaceAll("\\s+", " ");

        assertThat(help)
                .contains("serviced, pump-replaced, coupling-gap, regulator-turned,")
                .contains("healthy, worn-booster, not-turning, coupling-slips,")
                .doesNotContain("unknown");
    }

    @Test
    void the_journal_shows_what_was_found() throws IOException {
        site.commit(
                (batch, hash) ->
                        batch.fed(
                                "jet-1",
                                2,
                                new Instruction(
                                        SIX,
                                        "Kim",
                                        new Journal(
                                                Entry.PUMP_REPLACED, "old one", "worn-booster"))));

        assertThat(leat("journal", "--site", at).out())
                .containsPattern("entry +found +by +text")
                .containsPattern("pump-replaced +worn-booster +Kim +old one");
        assertThat(leat("journal", "--json", "--site", at).out())
                .contains("\"entry\" : \"pump-replaced\"", "\"found\" : \"worn-booster\"");
    }

    @Test
    void an_answer_is_left_for_the_machine_that_it_is_about() {
        Ran ran = leat("answer", "jet-1", "stays-low", "--note", "tried twice", "--site", at);

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(left()).containsExactly(new Journal(Entry.ANSWER, "tried twice", "stays-low"));
    }

    @Test
    void an_answer_that_no_check_has_is_told_with_those_that_there_are() {
        Ran ran = leat("answer", "jet-1", "yes", "--site", at);

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).startsWith("'yes' is no answer; known: recovers, stays-low,");
        assertThat(left()).isEmpty();
    }

    @Test
    void an_answer_about_a_startup_that_is_not_there_is_refused() {
        Ran ran = leat("answer", "jet-1/7", "recovers", "--site", at);

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("There is no startup jet-1/7");
        assertThat(left()).isEmpty();
    }

    private List<Order> left() {
        try (StoreReader reader = StoreReader.open(site.database())) {
            return reader.waiting().stream().map(left -> left.instruction().order()).toList();
        }
    }
}
