package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Arrays;
import java.util.Set;
import java.util.stream.Collectors;
import leat.signal.Order.Entry;
import leat.signal.Order.Journal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What can stand in the journal of a machine. */
class JournalTest {

    @ParameterizedTest
    @ValueSource(strings = {"Worn", "worn booster", "worn_booster", "=1", "w\u00f6rn", "a\n", "3"})
    void what_was_found_is_a_key_of_small_letters_and_dashes(String found) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Journal(Entry.PUMP_REPLACED, "", found));
    }

    @Test
    void an_answer_says_which() {
        assertThatIllegalArgumentException().isThrownBy(() -> new Journal(Entry.ANSWER, "yes"));
        assertThat(new Journal(Entry.ANSWER, "", "stays-low").found()).isEqualTo("stays-low");
    }

    @ParameterizedTest
    @EnumSource(Entry.class)
    void an_entry_is_known_by_its_key(Entry entry) {
        assertThat(Entry.byKey(entry.key())).contains(entry);
    }

    @Test
    void what_only_says_something_leaves_the_machine_as_it_was_seen() {
        Set<Entry> words =
                Arrays.stream(Entry.values())
                        .filter(entry -> !entry.beginsAnew())
                        .collect(Collectors.toSet());

        assertThat(words).containsExactlyInAnyOrder(Entry.NOTE, Entry.ANSWER, Entry.SERVICE_ON);
    }
}
