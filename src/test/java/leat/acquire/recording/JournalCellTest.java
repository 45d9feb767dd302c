package leat.acquire.recording;

import static org.assertj.core.api.Assertions.assertThat;

import leat.signal.Instruction;
import leat.signal.Order.Entry;
import leat.signal.Order.Journal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What people did, in the words of the last column. */
class JournalCellTest {

    private static final long SIX = 1_767_592_800_000_000L;

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "pump-replaced by Kim found worn-booster: gap 2: set|PUMP_REPLACED|worn-booster|gap 2: set",
                "answer by Kim found recovers: in 2 s|ANSWER|recovers|in 2 s",
                "note by Kim found healthy: |NOTE|healthy|''",
                "filter-changed by Kim: found dirt: much|FILTER_CHANGED|''|found dirt: much",
                "transducer-changed by Kim: |TRANSDUCER_CHANGED|''|''"
            },
            ignoreLeadingAndTrailingWhitespace = false)
    void an_entry_is_written_and_read_in_the_same_words(
            String cell, Entry entry, String found, String text) {
        Instruction instruction = new Instruction(SIX, "Kim", new Journal(entry, text, found));

        assertThat(EventCell.write(instruction)).isEqualTo(cell);
        assertThat(EventCell.read(cell, SIX)).isEqualTo(instruction);
    }

    /** Words of recordings of the first version, which knew nothing of what was found. */
    @ParameterizedTest
    @CsvSource({
        "serviced by Kim\\sLee: new seal, SERVICED",
        "learn by Kim\\sLee: new seal, LEARN",
        "note by Kim\\sLee: new seal, NOTE",
        "service-on by Kim\\sLee: new seal, SERVICE_ON",
        "service-off by Kim\\sLee: new seal, SERVICE_OFF",
        "service-off by Kim Lee: new seal, SERVICE_OFF"
    })
    void an_older_recording_is_still_read(String cell, Entry entry) {
        assertThat(EventCell.read(cell, SIX))
                .isEqualTo(new Instruction(SIX, "Kim Lee", new Journal(entry, "new seal")));
    }

    @Test
    void a_name_that_looks_like_what_was_found_stays_a_name() {
        Instruction instruction =
                new Instruction(SIX, "Kim found air", new Journal(Entry.NOTE, "x"));

        assertThat(EventCell.read(EventCell.write(instruction), SIX)).isEqualTo(instruction);
    }
}
