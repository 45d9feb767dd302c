package leat.acquire.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import leat.files.OddFiles;
import leat.signal.Input;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whatever the file is, the answer is a line for each mistake that says where, what and what is
 * allowed.
 */
class BadRecordingTest {

    private static final String HEADER = "time_s,inlet_psi,boosted_psi\n";

    @TempDir Path folder;
    private Path file;

    @BeforeEach
    void name() {
        file = folder.resolve("bad.csv");
    }

    private static void read(Path file) {
        Recording.open(file, ColumnNames.OWN, Optional.empty()).read(input -> {});
    }

    private String trouble(byte[] bytes) throws IOException {
        Files.write(file, bytes);
        RecordingException e = catchThrowableOfType(RecordingException.class, () -> read(file));
        assertThat(e).as("something is wrong with the file").isNotNull();
        assertThat(e.getMessage().lines()).allMatch(line -> isWhole(line));
        assertThat(e.getMessage()).startsWith(file.toString());
        return e.getMessage().substring(file.toString().length());
    }

    /** Each line says where, but for the last, which says what to do. */
    private boolean isWhole(String line) {
        return line.startsWith(file.toString()) || line.startsWith("Nothing was judged. ");
    }

    static Stream<Arguments> mistakes() {
        return Stream.of(
                mistake("", ": the file is empty"),
                mistake("\n\n  \n", ": there is no header and no row"),
                mistake("# nothing but words\n", ": there is no header and no row"),
                mistake(HEADER, ": there is a header and no row"),
                mistake("time_s,inlet_psi,boosted_psi", ": there is a header and no row"),
                mistake(
                        "a,b\n1,2\n",
                        ":1: no column holds the time; there are 'a' 'b'; allowed is time or time_s,"
                                + " or say which: --column time=NAME"),
                mistake("time,p_out\n1,2\n", ":1: no column holds the boosted"),
                mistake(
                        "time,inlet_psi,boosted\n1,2,3\n",
                        ":1: column 3: boosted 'boosted' does not say its unit; say it: --column"
                                + " \"boosted=boosted:bar\", where psi, bar or kPa are known"),
                mistake(
                        "time,inlet_psi,inlet_bar,boosted_psi\n1,2,3,4\n",
                        ":1: the columns 'inlet_psi' and 'inlet_bar' both hold inlet"),
                mistake(
                        HEADER + "0.1,40,1\n0.2,4o,1\n",
                        ":3: column 2: inlet '4o' is no number; allowed is a number such as 41.2"),
                mistake(HEADER + "0.1,40,NaN\n", ":2: column 3: boosted 'NaN' is no number"),
                mistake(HEADER + "0.1,inf,1\n", ":2: column 2: inlet 'inf' is no number"),
                mistake(
                        HEADER + "0.1,-Infinity,1\n",
                        ":2: column 2: inlet '-Infinity' is no number"),
                mistake(HEADER + "0.1,0x1p3,1\n", ":2: column 2: inlet '0x1p3' is no number"),
                mistake(HEADER + "0.1,1d,1\n", ":2: column 2: inlet '1d' is no number"),
                mistake(HEADER + "0.1,1e,1\n", ":2: column 2: inlet '1e' is no number"),
                mistake(HEADER + "0.1,1.2.3,1\n", ":2: column 2: inlet '1.2.3' is no number"),
                mistake(HEADER + "0.1,-,1\n", ":2: column 2: inlet '-' is no number"),
                mistake(
                        HEADER + "0.1,\u001b[31m41,1\n".replace("\u001b", "\u009b"),
                        ":2: column 2: inlet '\\u{9b}[31m41' is no number"),
                mistake(
                        "time_s,inlet_psi,boosted_psi,running\n0.1,40,1,maybe\n",
                        ":2: column 4: running 'maybe' is no position of a contact"),
                mistake(HEADER + "0.1,40,1\n\n0.05,40,1\n", ":4: column 1: time runs backwards"),
                mistake(HEADER + ",40,1\n", ":2: column 1: there is no time"),
                mistake(
                        HEADER + "noon,40,1\n",
                        ":2: column 1: time 'noon' cannot be read; allowed are seconds"),
                mistake(
                        HEADER + "1767592800000,40,1\n",
                        ":2: column 1: time '1767592800000' is too large"),
                mistake(
                        HEADER + "1,40,1\n2026-01-05T06:00:00Z,40,1\n",
                        ":3: column 1: time '2026-01-05T06:00:00Z' cannot be read; allowed is the form of the"
                                + " first row: 12.05"),
                mistake(
                        HEADER + "2026-02-30 06:00:00,40,1\n",
                        ":2: column 1: time '2026-02-30 06:00:00'"),
                mistake(
                        HEADER + "2026-01-05 24:00:00,40,1\n",
                        ":2: column 1: time '2026-01-05 24:00:00'"),
                mistake(
                        HEADER + "2026-01-05T06:00:0xZ,40,1\n",
                        ":2: column 1: time '2026-01-05T06:00:0xZ'"),
                mistake(HEADER + "0.1,40,1,7\n", ":2: column 4: there are more cells than the 3"),
                mistake(HEADER + "0.1,40,\"1\n0.2,40,1\n", ":2: a quote is not closed on its line"),
                mistake(HEADER + "0.1,\"40\"x,1\n", ":2: this line cannot be taken apart"),
                mistake("\"time_s,inlet_psi\n1,2\n", ":1: a quote is not closed on its line"),
                mistake("# leat recording 9\n", ": this is a recording of version '9'"),
                mistake("# leat recording 1\n# machine: jet-1\n", ": there is no header"));
    }

    private static Arguments mistake(String text, String says) {
        return Arguments.of(text, says);
    }

    @ParameterizedTest
    @MethodSource("mistakes")
    void each_mistake_is_a_line_with_its_place(String text, String says) throws IOException {
        assertThat(trouble(text.getBytes(StandardCharsets.UTF_8))).startsWith(says);
    }

    private List<String> troubles(String text, Map<String, String> names) throws IOException {
        Files.writeString(file, text);
        RecordingException e =
                catchThrowableOfType(
                        RecordingException.class,
                        () ->
                                Recording.open(file, ColumnNames.of(names), Optional.empty())
                                        .read(input -> {}));
        assertThat(e).as("something is wrong with the file").isNotNull();
        return e.getMessage().lines().map(line -> line.replace(file.toString(), "f")).toList();
    }

    @Test
    void every_mistake_in_columns_units_and_rows_is_told_at_once_and_then_what_to_do()
            throws IOException {
        String text =
                """
                Zeit;P1;P2;P3 (bar);Zustand
                2026-01-05 06:00:00;2,9;0,1;0,1;0
                2026-01-05 06:00:01;2,9;x;0,1;1
                2026-01-05 06:00:00;2,9;y;0,1;lauft
                2026-01-05 06:00:03;2,9;z;0,1;0
                sechs Uhr;2,9;0,1;0,1;1;7
                """;

        assertThat(
                        troubles(
                                text,
                                Map.of(
                                        "time", "Zeit",
                                        "inlet", "P1:atm",
                                        "boosted", "P2",
                                        "filtered", "P4:kPA",
                                        "running", "Zustand")))
                .containsExactly(
                        "f:1: column 2: 'atm' is no unit that leat knows; known are psi, bar or kPa."
                                + " Convert the column to one of them.",
                        "f:1: column 3: boosted 'P2' does not say its unit; say it: --column"
                                + " \"boosted=P2:bar\", where psi, bar or kPa are known",
                        "f:1: there is no column 'P4:kPA' for filtered; there are 'Zeit' 'P1' 'P2'"
                                + " 'P3 (bar)' 'Zustand'",
                        "f:3: column 3: boosted 'x' is no number; allowed is a number such as 41.2,"
                                + " or nothing where there is no reading",
                        "f:4: column 3: boosted 'y' is no number; allowed is a number such as 41.2,"
                                + " or nothing where there is no reading",
                        "f:4: column 5: running 'lauft' is no position of a contact; allowed are 0, 1,"
                                + " false, true, off, on, no and yes, or say which codes mean on:"
                                + " --column running=NAME:2,16",
                        "f:6: column 1: time 'sechs Uhr' cannot be read; allowed is the form of the"
                                + " first row: 2026-01-05 06:00:00.050",
                        "f:6: column 6: there are more cells than the 5 of the header; put a cell that"
                                + " holds the separator in quotes",
                        "f: and 1 more in column 3",
                        "Nothing was judged. Name the columns with --column as said, mend these cells"
                                + " in the file or leave them empty, and run it again.");
    }

    @Test
    void an_unknown_unit_is_told_with_the_nearest_that_is_known() throws IOException {
        assertThat(troubles("time_s,P\n0,1\n", Map.of("boosted", "P:bars")).get(0))
                .isEqualTo(
                        "f:1: column 2: 'bars' is no unit that leat knows; known are psi, bar or kPa."
                                + " Did you mean bar?");
    }

    /** A thousand millibar are one bar: the nearest name would be a thousandfold mistake. */
    @Test
    void a_unit_that_is_another_one_is_not_taken_for_a_slip_of_the_pen() throws IOException {
        assertThat(troubles("time_s,P\n0,1\n", Map.of("boosted", "P:mbar")).get(0))
                .endsWith("known are psi, bar or kPa. Convert the column to one of them.");
    }

    @Test
    void a_column_cannot_be_two_things_and_a_time_has_no_unit() throws IOException {
        assertThat(
                        troubles(
                                "t,P,Q\n0,1,2\n",
                                Map.of("time", "t:s", "inlet", "P:bar", "boosted", "P:bar")))
                .containsExactly(
                        "f:1: column 2: 'P' is named for two things; each column holds one",
                        "f:1: a time has no unit: 't:s'; allowed is --column time=NAME",
                        "Nothing was judged. Name the columns with --column as said, and run it"
                                + " again.");
    }

    @Test
    void codes_that_are_not_whole_are_told() throws IOException {
        assertThat(troubles("time_s,boosted_psi,s\n0,1,2\n", Map.of("running", "s:2,,16")))
                .first()
                .isEqualTo(
                        "f:1: column 3: the codes of running are not whole: '2,,16'; allowed are"
                                + " numbers or words with commas between, such as 2,16");
    }

    @Test
    void a_number_that_is_neither_on_nor_off_is_a_mistake_until_codes_are_named()
            throws IOException {
        assertThat(troubles("time_s,boosted_psi,running\n0,1,2\n", Map.of()).get(0))
                .startsWith("f:2: column 3: running '2' is no position of a contact");
    }

    @Test
    void of_very_many_bad_rows_the_first_are_told_and_the_others_counted() throws IOException {
        String text = "time_s,boosted_psi\n" + "0,x\n".repeat(3_000);

        assertThat(troubles(text, Map.of())).hasSize(4).contains("f: and 2998 more in column 2");
    }

    static Stream<Arguments> ownMistakes() {
        String head = "# leat recording 1\n# machine: jet-1\ntime,inlet_psi,boosted_psi,event\n";
        String at = "2026-01-05T06:00:00.000000Z,";
        return Stream.of(
                mistake(head + at + "1,2,dance\n", ":4: event 'dance' is not known; allowed are"),
                mistake(head + at + "1,2,lost pump: gone\n", ":4: event 'pump' is not known"),
                mistake(head + at + "1,2,serviced by : x\n", ":4: event 'by : x' is not known"),
                mistake(head + at + "1,2,answer by K: x\n", ":4: event 'by K: x' is not known"),
                mistake(head + at + "1,2,pumped by K: x\n", ":4: event 'pumped by K: x' is not"),
                mistake(head + at + "1,2,note by K: a\\qb\n", ":4: 'a\\qb' holds a \\"),
                mistake(head + at + "1,2,note by K: \\u{110000}\n", ":4: '\\u{110000}' holds a \\"),
                mistake(
                        head + "2026-01-05T06:00:00.500000Z,,,tick\n",
                        ":4: a tick stands at a fraction of a second"),
                mistake(
                        head + at + "1!loop_broken,2,\n",
                        ":4: column 2: inlet '1!loop_broken' is no reading"),
                mistake(
                        head + at + "1!good,2,\n",
                        ":4: column 2: inlet quality '!good' is not known"),
                mistake(
                        head + at + "1?loop_broken,2,\n",
                        ":4: column 2: inlet quality '?loop_broken'"),
                mistake(head + at + "1e999,2,\n", ":4: column 2: inlet '1e999' is no reading"),
                mistake(head + at + "1,2\n", ":4: there are 3 cells; the header has 4"));
    }

    @ParameterizedTest
    @MethodSource("ownMistakes")
    void a_recording_of_leat_that_somebody_edited_is_read_as_strictly(String text, String says)
            throws IOException {
        assertThat(trouble(text.getBytes(StandardCharsets.UTF_8))).startsWith(says);
    }

    @Test
    void utf_16_archives_and_programs_are_told_by_name() throws IOException {
        String text = HEADER + "0.1,40,1\n";
        ByteArrayOutputStream zip = new ByteArrayOutputStream();
        try (ZipOutputStream out = new ZipOutputStream(zip)) {
            out.putNextEntry(new ZipEntry("a.csv"));
            out.write(text.getBytes(StandardCharsets.UTF_8));
        }
        ByteArrayOutputStream gzip = new ByteArrayOutputStream();
        try (GZIPOutputStream out = new GZIPOutputStream(gzip)) {
            out.write(text.getBytes(StandardCharsets.UTF_8));
        }

        assertThat(trouble(text.getBytes(StandardCharsets.UTF_16))).contains("UTF-16", "UTF-8");
        assertThat(trouble(text.getBytes(StandardCharsets.UTF_16LE))).contains("UTF-16");
        assertThat(trouble(("\ufeff" + text).getBytes(StandardCharsets.UTF_16LE)))
                .contains("UTF-16");
        assertThat(trouble(zip.toByteArray())).contains("ZIP");
        assertThat(trouble(gzip.toByteArray())).contains("gzip");
        assertThat(trouble(new byte[] {0x7F, 'E', 'L', 'F', 2, 1, 1, 0})).contains("no text file");
    }

    @Test
    void a_quote_that_a_large_file_never_closes_is_found_without_reading_it_all()
            throws IOException {
        String row = "0.1,40,1\n";
        String text = HEADER + "0.1,\"40,1\n" + row.repeat(300_000);

        assertThat(trouble(text.getBytes(StandardCharsets.UTF_8)))
                .startsWith(":2: this line cannot be taken apart");
    }

    @Test
    void files_that_are_none_are_told() {
        assertThatThrownBy(() -> read(folder)).hasMessageContaining("folder");
        assertThatThrownBy(() -> read(folder.resolve("none.csv")))
                .isInstanceOf(RecordingException.class)
                .hasMessage(
                        folder.resolve("none.csv")
                                + ": there is no such file; check its name and folder");
    }

    @Test
    @Timeout(value = 20, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void a_pipe_or_a_device_is_no_recording() throws Exception {
        Path pipe = OddFiles.pipe(folder.resolve("pipe"));

        assertThatThrownBy(() -> read(pipe))
                .isInstanceOf(RecordingException.class)
                .hasMessage(pipe + ": this is a pipe; a regular file, or a link to one");
        assertThatThrownBy(() -> read(OddFiles.ZEROS)).hasMessageContaining("this is a device");
    }

    @Test
    void a_name_for_what_a_recording_does_not_have_is_refused() {
        assertThatThrownBy(() -> ColumnNames.of(Map.of("outlet", "P")))
                .hasMessageContaining("'outlet'")
                .hasMessageContaining("boosted");
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void garbage_in_a_good_file_never_gives_anything_but_inputs_or_one_line(long seed)
            throws IOException {
        Random random = new Random(seed);
        String own = "# leat recording 1\n# machine: jet-1\ntime,inlet_psi,boosted_psi,event\n";
        for (int i = 0; i < 300; i++) {
            StringBuilder text = new StringBuilder(random.nextBoolean() ? HEADER : own);
            for (int row = 0; row < 20; row++) {
                text.append("2026-01-05T06:00:0").append(row % 10).append("Z,4").append(row);
                text.append(",1,\n");
            }
            byte[] bytes = text.toString().getBytes(StandardCharsets.UTF_8);
            for (int hit = 0; hit <= random.nextInt(5); hit++) {
                bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
            }
            Files.write(file, bytes);
            try {
                List<Input> inputs = new java.util.ArrayList<>();
                Recording.open(file, ColumnNames.OWN, Optional.empty()).read(inputs::add);
                assertThat(inputs).doesNotContainNull();
            } catch (RecordingException e) {
                assertThat(e.getMessage().lines())
                        .as("seed %d", seed)
                        .allMatch(line -> isWhole(line));
            }
        }
    }
}
