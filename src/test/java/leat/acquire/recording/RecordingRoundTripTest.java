package leat.acquire.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import leat.json.Kinds;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RecordingRoundTripTest {

    private static final long SIX = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z
    private static final Set<Channel> ALL = EnumSet.allOf(Channel.class);

    @TempDir Path folder;
    private Path file;

    @BeforeEach
    void name() {
        file = folder.resolve("jet-1.csv");
    }

    private static RecordingHead head(String config) {
        return new RecordingHead(
                "0.1.0",
                "Zo\u00eb's \"yard\",\n2",
                "jet-1",
                ZoneId.of("Europe/London"),
                "ab12",
                config);
    }

    private void write(Set<Channel> channels, List<Input> inputs) throws IOException {
        try (RecordingWriter writer =
                new RecordingWriter(
                        Files.newBufferedWriter(file), head("site:\n  name: x\n"), channels)) {
            inputs.forEach(writer::write);
        }
    }

    private Recording open() {
        return Recording.open(file, ColumnNames.OWN, Optional.empty());
    }

    private List<Input> read() {
        List<Input> inputs = new ArrayList<>();
        Recording recording = open();
        recording.read(inputs::add);
        assertThat(recording.notes()).isEmpty();
        return inputs;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void what_is_written_comes_back_to_the_bit_and_in_its_order(long seed) throws IOException {
        List<Input> inputs = RandomInputs.of(seed, 2_000);

        write(ALL, inputs);

        assertThat(read()).as("seed %d", seed).isEqualTo(inputs);
    }

    /** A kind that is never written is not proved to come back. */
    @Test
    void the_inputs_are_of_every_kind() {
        Set<Class<?>> written = new HashSet<>();
        for (Input input : RandomInputs.of(1, 2_000)) {
            written.add(input.getClass());
            if (input instanceof Instruction instruction) {
                written.add(instruction.order().getClass());
            }
        }

        assertThat(written)
                .containsAll(Kinds.of(Input.class).types().values())
                .containsAll(Kinds.of(Order.class).types().values());
    }

    @Test
    void a_recording_of_nothing_is_one_of_nothing() throws IOException {
        write(Set.of(Channel.INLET, Channel.BOOSTED), List.of());

        assertThat(read()).isEmpty();
    }

    @Test
    void the_head_comes_back_with_its_configuration() throws IOException {
        String config = "site:\n  name: \"a # b\"\n\n# comment\n  note: \u6c34, \"x\"\n";
        try (RecordingWriter writer =
                new RecordingWriter(Files.newBufferedWriter(file), head(config), ALL)) {
            writer.write(new Tick(SIX));
        }

        Recording recording = open();

        assertThat(recording.head()).contains(head(config));
        assertThat(recording.channels()).isEqualTo(ALL);
    }

    @Test
    void the_file_is_one_that_a_person_can_read() throws IOException {
        write(
                Set.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING),
                List.of(
                        Reading.good(Channel.INLET, SIX, 41.25),
                        Reading.good(Channel.BOOSTED, SIX, 0.5),
                        Reading.good(Channel.RUNNING, SIX, 1),
                        new Tick(SIX),
                        Reading.good(Channel.BOOSTED, SIX + 50_000, 2),
                        Reading.bad(Channel.INLET, SIX + 50_000, Quality.LOOP_BROKEN),
                        new Reading(Channel.BOOSTED, SIX + 60_000, -2.5, Quality.LOOP_BELOW_BAND)));

        assertThat(Files.readString(file))
                .isEqualTo(
                        """
                        # leat recording 1
                        # leat: 0.1.0
                        # site: Zo\u00eb's "yard",\\n2
                        # machine: jet-1
                        # time zone: Europe/London
                        # pressures: psi gauge; times: UTC; rows: in the order in which leat took them
                        # configuration: ab12
                        # site.yaml: site:
                        # site.yaml:   name: x
                        # site.yaml:\s
                        time,inlet_psi,boosted_psi,running,event
                        2026-01-05T06:00:00.000000Z,41.25,0.5,1,tick
                        2026-01-05T06:00:00.050000Z,,2.0,,
                        2026-01-05T06:00:00.050000Z,!loop_broken,,,
                        2026-01-05T06:00:00.060000Z,,-2.5?loop_below_band,,
                        # end: 4 rows
                        """);
    }

    @Test
    void a_recording_that_was_cut_off_is_read_as_far_as_it_goes_and_says_so() throws IOException {
        List<Input> inputs = RandomInputs.of(7, 500);
        write(ALL, inputs);
        byte[] whole = Files.readAllBytes(file);
        Files.write(file, java.util.Arrays.copyOf(whole, whole.length * 2 / 3));

        List<Input> read = new ArrayList<>();
        Recording recording = open();
        recording.read(read::add);

        assertThat(read).isEqualTo(inputs.subList(0, read.size())).hasSizeBetween(250, 400);
        assertThat(recording.notes()).singleElement().asString().contains("cut off");
    }

    @Test
    void line_ends_and_a_byte_order_mark_that_a_mail_program_puts_in_do_no_harm()
            throws IOException {
        List<Input> inputs = RandomInputs.of(8, 500);
        write(ALL, inputs);
        String text = Files.readString(file).replace("\n", "\r\n");
        Files.write(file, ("\ufeff" + text).getBytes(StandardCharsets.UTF_8));

        assertThat(read()).isEqualTo(inputs);
        assertThat(open().head().orElseThrow().configText()).isEqualTo("site:\n  name: x\n");
    }
}
