package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;
import java.util.stream.Stream;
import leat.Gear;
import leat.acquire.recording.ColumnNames;
import leat.acquire.recording.Recording;
import leat.acquire.recording.RecordingHead;
import leat.acquire.recording.RecordingWriter;
import leat.config.Site;
import leat.replay.Past;
import leat.replay.Replay;
import leat.replay.ReplayJson;
import leat.replay.Replayed;
import leat.replay.StoredSpan;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.store.InstructionBox;
import leat.store.StoreReader;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What the engine said live, a replay of what it stored, and a replay of the recording that is
 * exported from that, as the JSON document of {@code leat replay --json}: the same bytes.
 */
class ReplayJsonParityTest {

    private static final ObjectMapper MAPPER = new ObjectMapper();

    @TempDir Path folder;
    private LiveRun live;

    @BeforeEach
    void open() throws IOException {
        live = new LiveRun(folder);
    }

    @AfterEach
    void close() {
        live.close();
    }

    private String json(Replayed replayed) {
        return new ReplayJson(Optional.of(live.site().hash()), OptionalLong.empty())
                .write(replayed);
    }

    private String fromStore() {
        try (StoreReader reader = StoreReader.open(live.database())) {
            return json(Replay.of(live.settings(), stored(reader)));
        }
    }

    private StoredSpan stored(StoreReader reader) {
        return StoredSpan.between(reader, LiveRun.MACHINE, Long.MIN_VALUE, Long.MAX_VALUE)
                .orElseThrow();
    }

    private Path export() throws IOException {
        Path file = folder.resolve("export.csv");
        Site site = live.site();
        RecordingHead head =
                new RecordingHead(
                        "test",
                        site.name(),
                        LiveRun.MACHINE,
                        site.zone(),
                        site.hash(),
                        site.text());
        try (StoreReader reader = StoreReader.open(live.database());
                RecordingWriter writer =
                        new RecordingWriter(
                                Files.newBufferedWriter(file), head, live.settings().wired())) {
            stored(reader).read(writer::write);
        }
        return file;
    }

    private String fromFile(Path file) {
        Past recorded = Recording.open(file, ColumnNames.OWN, Optional.empty())::read;
        return json(Replay.of(live.settings(), recorded));
    }

    private void assertTheSame(Replayed lived) throws IOException {
        String said = json(lived);
        Path file = export();

        assertThat(fromStore()).as("replay of the store").isEqualTo(said);
        assertThat(fromFile(file)).as("replay of the recording").isEqualTo(said);
        JsonNode document = MAPPER.readTree(said);
        assertThat(readings(document)).isEqualTo(live.offered());
        assertThat(document.get("startups")).isNotEmpty();
    }

    private static long readings(JsonNode document) {
        long sum = 0;
        for (JsonNode count : document.get("counts").get("readings")) {
            sum += count.asLong();
        }
        return sum;
    }

    @Test
    void a_replay_says_the_same_each_time() throws Exception {
        String said = json(live.play("demo", "jet-2").finish());
        Path file = export();

        assertThat(List.of(fromStore(), fromStore(), fromFile(file), fromFile(file)))
                .containsOnly(said);
    }

    static Stream<Arguments> scenarios() {
        Stream<Arguments> everyday =
                Stream.of(
                        Arguments.of("demo", "jet-2", 1),
                        Arguments.of("broken-loop", "jet-1", 1),
                        Arguments.of("water-shut", "jet-1", 1));
        Stream<Arguments> more =
                Stream.of(
                        Arguments.of("demo", "jet-1", 0),
                        Arguments.of("healthy", "jet-1", 0),
                        Arguments.of("worn-booster", "jet-1", 1),
                        Arguments.of("leaking-valve", "jet-1", 1),
                        Arguments.of("leaking-valve-near-inlet", "jet-1", 1),
                        Arguments.of("weak-supply", "jet-1", 1),
                        Arguments.of("air-after-service", "jet-1", 0),
                        Arguments.of("not-turning", "jet-1", 1),
                        Arguments.of("set-too-high", "jet-1", 1));
        return Gear.isThorough() ? Stream.concat(everyday, more) : everyday;
    }

    @ParameterizedTest
    @MethodSource("scenarios")
    void live_run_replay_and_replayed_export_are_the_same_document(
            String scenario, String machine, int leastAlarms) throws Exception {
        Replayed lived = live.play(scenario, machine).finish();

        assertTheSame(lived);
        assertThat(lived.alarms()).hasSizeGreaterThanOrEqualTo(leastAlarms);
    }

    /**
     * A plain table of the same signal, as any logger writes it: no ticks, no word of the lost
     * connection at the end. What is counted of the inputs differs; what is measured, called and
     * found does not. No reading is stamped on a whole second: whether such a one came before or
     * after the tick of that second is known to leat's own recordings alone, and is worth one
     * reading in a mean. A broken loop is not among the scenarios: in a plain table it is an empty
     * cell, which says that nothing came and not why.
     */
    @ParameterizedTest
    @MethodSource("tabled")
    void a_plain_table_of_the_same_signal_gives_the_same_numbers_and_alarms(
            String scenario, String machine) throws Exception {
        Replayed lived = live.play(scenario, machine, 60_000).finish();

        String plain = fromFile(plainTable());

        assertThat(signalOf(plain)).isEqualTo(signalOf(json(lived)));
    }

    static Stream<Arguments> tabled() {
        Stream<Arguments> everyday = Stream.of(Arguments.of("demo", "jet-2"));
        Stream<Arguments> more =
                Stream.of(
                        Arguments.of("worn-booster", "jet-1"),
                        Arguments.of("leaking-valve", "jet-1"),
                        Arguments.of("air-after-service", "jet-1"));
        return Gear.isThorough() ? Stream.concat(everyday, more) : everyday;
    }

    private static JsonNode signalOf(String document) throws IOException {
        return ((ObjectNode) MAPPER.readTree(document)).without(List.of("from", "to", "counts"));
    }

    /** What is stored, a row for each time, cells that have no number left empty. */
    private Path plainTable() throws IOException {
        Map<Long, EnumMap<Channel, String>> rows = new TreeMap<>();
        try (StoreReader reader = StoreReader.open(live.database())) {
            stored(reader)
                    .read(
                            input -> {
                                if (input instanceof Reading reading) {
                                    rows.computeIfAbsent(
                                                    reading.atMicros(),
                                                    at -> new EnumMap<>(Channel.class))
                                            .put(
                                                    reading.channel(),
                                                    reading.quality().isUsable()
                                                            ? Double.toString(reading.value())
                                                            : "");
                                }
                            });
        }
        StringBuilder text = new StringBuilder("time,inlet_psi,boosted_psi,running\n");
        rows.forEach(
                (at, cells) ->
                        text.append(Instant.EPOCH.plus(at, ChronoUnit.MICROS))
                                .append(',')
                                .append(cells.getOrDefault(Channel.INLET, ""))
                                .append(',')
                                .append(cells.getOrDefault(Channel.BOOSTED, ""))
                                .append(',')
                                .append(cells.getOrDefault(Channel.RUNNING, ""))
                                .append('\n'));
        return Files.writeString(folder.resolve("plain.csv"), text);
    }

    @Test
    void so_are_they_with_all_that_can_happen_in_between() throws Exception {
        live.play("worn-booster", "jet-1");
        try (InstructionBox box = InstructionBox.open(live.database())) {
            String alarm = box.alarm("1").orElseThrow().id();
            box.leave(
                    LiveRun.MACHINE,
                    new Instruction(
                            live.nowMicros(), "Kim, \"the tech\"", new Order.Acknowledge(alarm)));
            box.leave(
                    LiveRun.MACHINE,
                    new Instruction(
                            live.nowMicros(),
                            "Kim",
                            new Order.Journal(Order.Entry.SERVICED, "new booster;\nsays \"ok\"")));
        }
        live.silence(4).lose("no reply, cable?").silence(20);
        live.offer(Reading.good(Channel.INLET, live.nowMicros() - 60_000_000, 40));
        live.play("healthy", "jet-1").set(-3_600_000_000L).silence(2);
        live.play(Gear.isThorough() ? "air-after-service" : "demo", "jet-1")
                .set(7_200_000_000L)
                .silence(2);

        Replayed lived = live.play("leaking-valve", "jet-1").finish();

        assertTheSame(lived);
        assertThat(lived.alarms()).anyMatch(alarm -> alarm.acknowledged().isPresent());
        assertThat(lived.startups()).hasSizeGreaterThanOrEqualTo(4);
        assertThat(lived.counts().late()).isPositive();
    }
}
