package leat.acquire.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import leat.Gear;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.PressureUnit;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Files that other loggers write. */
class ForeignRecordingTest {

    private static final long SECOND = 1_000_000;
    private static final long ORIGIN = micros("2000-01-01T00:00:00Z");

    @TempDir Path folder;
    private Path file;
    private List<String> notes = List.of();

    @BeforeEach
    void name() {
        file = folder.resolve("logger.csv");
    }

    private static long micros(String instant) {
        return Instant.parse(instant).toEpochMilli() * 1_000;
    }

    private List<Input> read(Map<String, String> names, String zone) {
        List<Input> inputs = new ArrayList<>();
        Recording recording =
                Recording.open(
                        file,
                        ColumnNames.of(names),
                        zone.isEmpty() ? Optional.empty() : Optional.of(ZoneId.of(zone)));
        recording.read(inputs::add);
        notes = recording.notes();
        return inputs;
    }

    private List<Input> read(String text) throws IOException {
        Files.writeString(file, text);
        return read(Map.of(), "");
    }

    private static Reading inlet(long at, double psi) {
        return Reading.good(Channel.INLET, at, psi);
    }

    private static Reading boosted(long at, double psi) {
        return Reading.good(Channel.BOOSTED, at, psi);
    }

    /**
     * The same two samples at 06:00:00.050 and 06:00:00.100 UTC, as different loggers write them.
     */
    static Stream<Arguments> forms() {
        return Stream.of(
                form(
                        "leat's names, comma, UTC",
                        """
                        time,inlet_psi,boosted_psi
                        2026-01-05T06:00:00.050Z,41.25,0.5
                        2026-01-05T06:00:00.100Z,41.5,-0.25
                        """),
                form(
                        "an offset",
                        """
                        time,inlet_psi,boosted_psi
                        2026-01-05T07:00:00.050+01:00,41.25,0.5
                        2026-01-05 07:00:00.1 +0100,41.5,-0.25
                        """),
                form(
                        "an offset of hours and minutes to the west",
                        """
                        time,inlet_psi,boosted_psi
                        2026-01-05T02:30:00.050-03:30,41.25,0.5
                        2026-01-05 02:30:00.1 -0330,41.5,-0.25
                        """),
                form(
                        "semicolon, decimal comma, local time with a comma",
                        """
                        time;inlet_psi;boosted_psi
                        2026-01-05 06:00:00,050;41,25;0,5
                        2026-01-05 06:00:00,100;41,5;-0,25
                        """),
                form(
                        "tab, decimal comma, days first",
                        "time\tinlet_psi\tboosted_psi\n"
                                + "05.01.2026 06:00:00,05\t41,25\t0,5\n"
                                + "05.01.2026 06:00:00,10\t41,5\t-0,25\n"),
                form(
                        "semicolon and points, other case, other order",
                        """
                        BOOSTED_PSI;Inlet_psi;Time
                        0.5;41.25;2026-01-05T06:00:00.05Z
                        -.25;+41.5;2026-01-05T06:00:00.10000000Z
                        """),
                form(
                        "line ends of another system",
                        "time,inlet_psi,boosted_psi\r\n2026-01-05T06:00:00.050Z,41.25,0.5\r\n"
                                + "2026-01-05T06:00:00.100Z,41.5,-0.25"),
                form(
                        "a byte order mark",
                        "\ufefftime,inlet_psi,boosted_psi\n2026-01-05T06:00:00.050Z,41.25,0.5\n"
                                + "2026-01-05T06:00:00.100Z,41.5,-0.25\n"),
                form(
                        "everything in quotes, more columns, empty lines, comments",
                        """
                        # logger 7

                        "time","valve temp, C","inlet_psi","note","boosted_psi"
                        "2026-01-05T06:00:00.050Z","12","41,25","he said \""go\""","0.5"

                        # half time
                        "2026-01-05T06:00:00.100Z","","4.15e1","","-2.5E-1"
                        """),
                form(
                        "a spreadsheet that names its separator",
                        """
                        sep=;
                        time;inlet_psi;boosted_psi;
                        2026-01-05T06:00:00.050Z;41,25;0,5;
                        2026-01-05T06:00:00.100Z;41,5;-0,25;;
                        """),
                form(
                        "blanks around the cells",
                        """
                        time , inlet_psi , boosted_psi
                        2026-01-05T06:00:00.050Z ,  41.25, 0.5
                         2026-01-05T06:00:00.100Z , 41.5 ,-0.25
                        """),
                form(
                        "seconds since 1970",
                        """
                        time,inlet_psi,boosted_psi
                        1767592800.05,41.25,0.5
                        1767592800.10,41.5,-0.25
                        """));
    }

    private static Arguments form(String name, String text) {
        return Arguments.of(name, text);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("forms")
    void the_same_two_samples_are_the_same_readings(String name, String text) throws IOException {
        long first = micros("2026-01-05T06:00:00.050Z");
        long second = micros("2026-01-05T06:00:00.100Z");

        List<Input> inputs = read(text);

        assertThat(inputs)
                .containsExactlyInAnyOrder(
                        inlet(first, 41.25),
                        boosted(first, 0.5),
                        inlet(second, 41.5),
                        boosted(second, -0.25));
    }

    @Test
    void own_seconds_count_from_a_fixed_day() throws IOException {
        Files.writeString(file, "time_s;inlet_bar;boosted_kPa\n-0,5;3;100\n0,25;3;200\n");
        List<Input> inputs = new ArrayList<>();
        Recording recording = Recording.open(file, ColumnNames.OWN, Optional.empty());

        recording.read(inputs::add);

        assertThat(recording.zeroMicros()).hasValue(ORIGIN);
        assertThat(inputs)
                .containsExactly(
                        inlet(ORIGIN - 500_000, PressureUnit.BAR.toPsi(3)),
                        boosted(ORIGIN - 500_000, PressureUnit.KPA.toPsi(100)),
                        new Tick(ORIGIN),
                        inlet(ORIGIN + 250_000, PressureUnit.BAR.toPsi(3)),
                        boosted(ORIGIN + 250_000, PressureUnit.KPA.toPsi(200)));
    }

    @Test
    void a_tick_comes_after_the_rows_up_to_its_second_and_before_all_later_ones()
            throws IOException {
        List<Input> inputs =
                read("time_s,inlet_psi,boosted_psi\n0,1,2\n0.5,1,2\n1,1,2\n3.5,1,2\n4,1,2\n");

        assertThat(inputs.stream().map(i -> i.getClass().getSimpleName().charAt(0)).toList())
                .containsExactly(
                        'R', 'R', 'T', 'R', 'R', 'R', 'R', 'T', 'T', 'T', 'R', 'R', 'R', 'R', 'T');
        assertThat(inputs.stream().filter(i -> i instanceof Tick).map(i -> i.atMicros() - ORIGIN))
                .containsExactly(0L, SECOND, 2 * SECOND, 3 * SECOND, 4 * SECOND);
    }

    @Test
    void a_missing_cell_is_no_reading_and_a_row_may_end_early() throws IOException {
        List<Input> inputs =
                read("time_s,inlet_psi,boosted_psi,running\n0.1,1,,\n0.2,,2\n0.3,,,1\n0.4\n");

        assertThat(inputs)
                .containsExactly(
                        inlet(ORIGIN + 100_000, 1),
                        boosted(ORIGIN + 200_000, 2),
                        Reading.good(Channel.RUNNING, ORIGIN + 300_000, 1));
    }

    @Test
    void contacts_are_read_as_loggers_write_them() throws IOException {
        List<Input> inputs =
                read(
                        "time_s,inlet_psi,boosted_psi,running,valve\n"
                                + "0.1,,,0,TRUE\n0.2,,,1.0,off\n0.3,,,YES,No\n");

        assertThat(inputs.stream().map(i -> ((Reading) i).value()))
                .containsExactly(0.0, 1.0, 1.0, 0.0, 1.0, 0.0);
    }

    @Test
    void other_names_and_units_are_told_on_the_command_line() throws IOException {
        Files.writeString(file, "Zeit;P in;P out (bar);p: raw;Pump\n0,1;2;7;50;1\n");

        List<Input> inputs =
                read(
                        Map.of(
                                "time", "zeit",
                                "inlet", "P in:bar",
                                "boosted", "P out (bar)",
                                "filtered", "p: raw:psi",
                                "running", "Pump"),
                        "");

        long at = ORIGIN + 100_000;
        assertThat(inputs)
                .containsExactly(
                        inlet(at, PressureUnit.BAR.toPsi(2)),
                        boosted(at, PressureUnit.BAR.toPsi(7)),
                        Reading.good(Channel.FILTERED, at, 50),
                        Reading.good(Channel.RUNNING, at, 1));
    }

    @Test
    void a_contact_is_on_at_the_codes_that_were_named_and_off_at_every_other() throws IOException {
        Files.writeString(
                file,
                "time_s,boosted_psi,state,mode\n0.1,1,2,Lauf\n0.2,1,16.0,halt\n0.3,1,1,LAUF\n");

        List<Input> inputs = read(Map.of("running", "state:2,16", "valve", "mode:lauf"), "");

        assertThat(
                        inputs.stream()
                                .map(input -> (Reading) input)
                                .filter(reading -> !reading.channel().isPressure())
                                .map(Reading::value))
                .containsExactly(1.0, 1.0, 1.0, 0.0, 0.0, 1.0);
        assertThat(notes).isEmpty();
    }

    @Test
    void codes_that_never_come_are_said() throws IOException {
        Files.writeString(file, "time_s,boosted_psi,state\n0.1,1,2\n0.2,1,3\n");

        read(Map.of("running", "state:16"), "");

        assertThat(notes)
                .containsExactly(
                        "Column 'state' never holds one of the codes: it was taken for off all the"
                                + " time.");
    }

    @Test
    void a_file_needs_no_inlet() throws IOException {
        Files.writeString(file, "time_s;boosted_bar\n0,1;7\n");
        Recording recording = Recording.open(file, ColumnNames.OWN, Optional.empty());

        assertThat(recording.channels()).containsExactly(Channel.BOOSTED);
        assertThat(recording.unit()).hasValue(PressureUnit.BAR);
    }

    private List<Input> held(String text, int seconds) throws IOException {
        Files.writeString(file, text);
        List<Input> inputs = new ArrayList<>();
        Recording recording =
                Recording.open(
                        file,
                        ColumnNames.OWN,
                        Optional.empty(),
                        Optional.of(Duration.ofSeconds(seconds)));
        recording.read(inputs::add);
        notes = recording.notes();
        return inputs;
    }

    private static Reading held(double second, double psi) {
        return new Reading(
                Channel.BOOSTED, ORIGIN + Math.round(second * SECOND), psi, Quality.HELD);
    }

    @Test
    void a_value_that_is_held_is_repeated_until_half_a_second_before_it_changes()
            throws IOException {
        List<Input> inputs = held("time_s,boosted_psi\n0.2,5\n2.6,80\n", 10);

        assertThat(inputs)
                .containsExactly(
                        boosted(ORIGIN + 200_000, 5),
                        held(1, 5),
                        new Tick(ORIGIN + SECOND),
                        held(1.5, 5),
                        held(2, 5),
                        new Tick(ORIGIN + 2 * SECOND),
                        boosted(ORIGIN + 2_600_000, 80));
        assertThat(notes).singleElement().asString().startsWith("3 readings are values held");
    }

    @Test
    void a_value_holds_no_longer_than_was_said() throws IOException {
        List<Input> inputs = held("time_s,boosted_psi\n0,5\n30,80\n", 2);

        assertThat(inputs.stream().filter(Reading.class::isInstance).map(Input::atMicros))
                .containsExactly(
                        ORIGIN,
                        ORIGIN + SECOND / 2,
                        ORIGIN + SECOND,
                        ORIGIN + 3 * SECOND / 2,
                        ORIGIN + 2 * SECOND,
                        ORIGIN + 30 * SECOND);
    }

    @Test
    void a_value_written_again_unchanged_is_held_and_an_other_columns_row_does_not_end_it()
            throws IOException {
        List<Input> inputs = held("time_s,inlet_psi,boosted_psi\n0,40,5\n0.9,,5\n1.8,41,\n", 10);

        assertThat(inputs)
                .containsExactly(
                        inlet(ORIGIN, 40),
                        boosted(ORIGIN, 5),
                        new Tick(ORIGIN),
                        new Reading(Channel.INLET, ORIGIN + SECOND / 2, 40, Quality.HELD),
                        held(0.9, 5),
                        new Reading(Channel.INLET, ORIGIN + SECOND, 40, Quality.HELD),
                        new Tick(ORIGIN + SECOND),
                        held(1.5, 5),
                        inlet(ORIGIN + 1_800_000, 41));
    }

    @Test
    void a_log_that_pauses_all_the_time_is_told_of_hold() throws IOException {
        read("time_s,boosted_psi\n0,5\n9,80\n9.2,95\n31,96\n60,95\n");

        assertThat(notes)
                .singleElement()
                .asString()
                .contains("pause 3 times for more than 2 s", "--hold 30s");
    }

    @Test
    void local_times_follow_the_clocks_of_their_zone() throws IOException {
        Files.writeString(
                file,
                """
                time;inlet_psi;boosted_psi
                29.03.2026 01:59:59;40;
                29.03.2026 03:00:00;40;
                25.10.2026 02:59:59;40;
                25.10.2026 02:00:00;40;
                25.10.2026 02:59:59;40;
                25.10.2026 03:00:00;40;
                """);

        List<Input> inputs = read(Map.of(), "Europe/Berlin");

        assertThat(inputs.stream().filter(i -> i instanceof Reading).map(Input::atMicros))
                .containsExactly(
                        micros("2026-03-29T00:59:59Z"),
                        micros("2026-03-29T01:00:00Z"),
                        micros("2026-10-25T00:59:59Z"),
                        micros("2026-10-25T01:00:00Z"),
                        micros("2026-10-25T01:59:59Z"),
                        micros("2026-10-25T02:00:00Z"));
        assertThat(notes).singleElement().asString().contains("more than a day");
    }

    /** A logger whose clock was not set forward goes on in the time of before. */
    @Test
    void an_hour_that_the_zone_leaves_out_is_read_by_the_clock_before_it() throws IOException {
        Files.writeString(
                file,
                "time;inlet_psi;boosted_psi\n29.03.2026 01:59:59;40;\n29.03.2026 02:00:01;40;\n");

        assertThat(read(Map.of(), "Europe/Berlin"))
                .filteredOn(Reading.class::isInstance)
                .extracting(Input::atMicros)
                .containsExactly(micros("2026-03-29T00:59:59Z"), micros("2026-03-29T01:00:01Z"));
    }

    @Test
    void local_times_without_a_zone_are_taken_as_utc_and_that_is_said() throws IOException {
        List<Input> inputs =
                read("time,inlet_psi,boosted_psi\n2026-07-01 12:00,40,1\n2026-07-01 12:01,40,1\n");

        assertThat(inputs.get(0).atMicros()).isEqualTo(micros("2026-07-01T12:00:00Z"));
        assertThat(notes).singleElement().asString().contains("UTC", "--zone");
    }

    @Test
    void a_pressure_that_no_gauge_can_show_is_a_bad_reading_counted_and_said() throws IOException {
        List<Input> inputs =
                read("time_s,inlet_psi,boosted_psi\n0.1,-15.1,500\n0.2,-15,1e30\n0.3,65535,1\n");

        assertThat(inputs.get(0))
                .isEqualTo(Reading.bad(Channel.INLET, ORIGIN + 100_000, Quality.OUT_OF_RANGE));
        assertThat(inputs.stream().filter(i -> !((Reading) i).quality().isUsable())).hasSize(3);
        assertThat(notes)
                .containsExactly("3 pressures outside -15 to 500 psi were taken as BAD readings.");
    }

    @Test
    void columns_that_mean_nothing_to_leat_are_said_once() throws IOException {
        read("time_s,inlet_psi,temp,boosted_psi,event\n0.1,40,20,1,go\n0.2,40,20,1,stop\n");

        assertThat(notes).containsExactly("Columns not read: ['temp', 'event'].");
    }

    @Test
    void a_last_line_that_was_cut_off_is_left_out_and_said() throws IOException {
        List<Input> inputs = read("time_s,inlet_psi,boosted_psi\n0.1,40,1\n0.2,4");

        assertThat(inputs).hasSize(2);
        assertThat(notes).singleElement().asString().contains("ends in the middle of a line");
    }

    @Test
    void old_encodings_of_names_are_read() throws IOException {
        Files.write(
                file,
                "time_s;inlet_bar;boosted_bar;\u00d6l \u00b0C\n0,1;3;7;40\n"
                        .getBytes(Charset.forName("windows-1252")));

        assertThat(read(Map.of(), "")).hasSize(2);
        assertThat(notes).contains("Columns not read: ['\u00d6l \u00b0C'].");
    }

    @Test
    void silence_of_more_than_a_day_is_a_minute_and_a_set_clock() throws IOException {
        List<Input> inputs = read("time_s,inlet_psi,boosted_psi\n0,40,1\n400000000.5,40,1\n");

        assertThat(inputs).hasSizeBetween(60, 70);
        assertThat(inputs.stream().filter(i -> i instanceof ClockStep))
                .containsExactly(
                        new ClockStep(ORIGIN + 400_000_000_500_000L, ORIGIN + 60 * SECOND));
    }

    @Test
    void very_many_lines_are_read_in_flat_memory() throws IOException {
        int lines = Gear.of(200_000, 1_000_000);
        try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            out.write("time_s,inlet_psi,boosted_psi\n");
            for (int i = 0; i < lines; i++) {
                out.write(String.format("%d.%02d,%d,1%n", i / 20, i % 20 * 5, i % 60));
            }
        }
        long[] count = new long[1];

        Recording.open(file, ColumnNames.OWN, Optional.empty()).read(input -> count[0]++);

        assertThat(count[0])
                .isBetween(2 * lines + lines / 20 - 1_000L, 2 * lines + lines / 20 + 1_000L);
    }
}
