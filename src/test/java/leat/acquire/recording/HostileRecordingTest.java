package leat.acquire.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import leat.HostileText;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.signal.Reading;
import leat.signal.SourceLost;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A recording of hostile words, read back by leat, and taken apart as spreadsheets do. */
class HostileRecordingTest {

    private static final long SIX = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z

    @TempDir Path folder;
    private Path file;

    @BeforeEach
    void write() throws IOException {
        file = folder.resolve("hostile.csv");
        RecordingHead head =
                new RecordingHead(
                        HostileText.ALL,
                        HostileText.ALL,
                        HostileText.ALL,
                        ZoneOffset.UTC,
                        "ab12",
                        "site: {}\n");
        try (RecordingWriter writer =
                new RecordingWriter(
                        Files.newBufferedWriter(file),
                        head,
                        Set.of(Channel.INLET, Channel.BOOSTED))) {
            inputs().forEach(writer::write);
        }
    }

    private static List<Input> inputs() {
        List<Input> inputs = new ArrayList<>();
        inputs.add(Reading.good(Channel.INLET, SIX, -1.5));
        for (String text : HostileText.EACH) {
            inputs.add(new SourceLost(Channel.INLET, SIX, text));
            inputs.add(new Instruction(SIX, text, new Order.Journal(Entry.NOTE, text)));
            inputs.add(new Instruction(SIX, text, new Order.Acknowledge("jet-1.ratio" + text)));
            inputs.add(new Instruction(SIX, text, new Order.Shelve("jet-1.ratio", SIX + 1, text)));
            inputs.add(new Instruction(SIX, text, new Order.Remove("jet-1.ratio", text)));
        }
        return inputs;
    }

    @Test
    void every_word_comes_back() {
        Recording recording = Recording.open(file, ColumnNames.OWN, Optional.empty());
        List<Input> read = new ArrayList<>();

        recording.read(read::add);

        assertThat(read).isEqualTo(inputs());
        assertThat(recording.notes()).isEmpty();
        assertThat(recording.head().orElseThrow().site()).isEqualTo(HostileText.ALL);
        assertThat(recording.head().orElseThrow().machine()).isEqualTo(HostileText.ALL);
    }

    @Test
    void the_file_drives_no_terminal() throws IOException {
        HostileText.assertHarmless(Files.readString(file));
    }

    @ParameterizedTest
    @ValueSource(strings = {",", ";", "\t", "|"})
    void no_cell_is_a_formula_whatever_a_spreadsheet_parts_cells_by(String separator)
            throws IOException {
        Pattern quotedOrNot =
                Pattern.compile("\"(?:[^\"]|\"\")*\"|[^" + Pattern.quote(separator) + "]*");

        List<String> cells =
                Files.readAllLines(file).stream()
                        .flatMap(line -> cells(line, separator, quotedOrNot).stream())
                        .toList();

        assertThat(cells)
                .hasSizeGreaterThan(50)
                .noneMatch(cell -> cell.matches("(?s)[\\s\"']*[=+@-](?![0-9.]+$).*"));
    }

    /** A quote that does not stand at the start of a cell parts nothing. */
    private static List<String> cells(String line, String separator, Pattern quotedOrNot) {
        List<String> cells = new ArrayList<>();
        java.util.regex.Matcher matcher = quotedOrNot.matcher(line);
        int at = 0;
        while (at <= line.length() && matcher.find(at)) {
            cells.add(matcher.group());
            int next = line.indexOf(separator, matcher.end());
            if (next < 0) {
                break;
            }
            at = next + separator.length();
        }
        return cells;
    }
}
