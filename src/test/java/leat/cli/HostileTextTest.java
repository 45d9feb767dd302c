package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import leat.HostileText;
import leat.acquire.recording.RecordingHead;
import leat.acquire.recording.RecordingWriter;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.alarm.ServiceChange;
import leat.config.Site;
import leat.config.SiteFile;
import leat.measure.Figure;
import leat.replay.Played;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.PlainText;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreReader;
import leat.store.WaitingInstruction;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/**
 * Every command on a site whose name, people and sources are hostile: what a terminal gets, what a
 * script gets, what a browser gets.
 */
class HostileTextTest {

    private static final long SIX = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z
    private static final ObjectMapper MAPPER = new ObjectMapper();

    /** As much as a site may be called. */
    private static final String SITE_NAME =
            "\"'`$(x) <script>alert(1)</script> \u202egnorw\u202c,=1+1;@x %n {} \ud83d\udca7 ";

    private static final String OF_JET_1 = "jet-1.ratio.20260105T060000Z-1";

    @TempDir private static Path lived;
    private static Path livedStore;

    @TempDir Path folder;
    private Path site;

    /** On the hostile site; words are parted by blanks. */
    private Ran on(String command) {
        return Ran.leat(
                Stream.concat(Stream.of(command.split(" ")), Stream.of("--site", site.toString()))
                        .toArray(String[]::new));
    }

    @BeforeEach
    void copy() throws IOException {
        site = folder.resolve("site.yaml");
        Files.copy(lived.resolve("site.yaml"), site);
        Path store = load(site).store().file();
        Files.createDirectories(store.getParent());
        Files.copy(livedStore, store);
    }

    private static Site load(Path site) throws IOException {
        return SiteFile.load(site, name -> Optional.empty()).site().orElseThrow();
    }

    @BeforeAll
    static void live() throws IOException {
        Path site = lived.resolve("site.yaml");
        String yaml = Files.readString(Path.of("config/boatyard-modbus.yaml"));
        Files.writeString(
                site, yaml.replace("name: Boatyard", "name: \"" + escaped(SITE_NAME) + '"'));
        Site loaded = load(site);
        livedStore = loaded.store().file();
        assertThat(loaded.name()).isEqualTo(SITE_NAME);
        try (Store store = Store.open(loaded.store().file())) {
            store.startRun("test", loaded.hash(), loaded.text(), SIX);
            Batch batch = new Batch();
            played(loaded, batch);
            batch.said("jet-1", 1, new Outcome.AlarmChanged(shelved()), loaded.hash());
            batch.said("jet-1", 1, new Outcome.ServiceChanged(serviced()), loaded.hash());
            store.commit(batch);
            store.endRun(SIX);
        }
    }

    private static String escaped(String text) {
        return text.chars()
                .mapToObj(c -> String.format(Locale.ROOT, "\\u%04x", c))
                .collect(Collectors.joining());
    }

    private static void played(Site site, Batch batch) {
        Watch watch =
                new Watch(
                        new WatchSettings(
                                "jet-1",
                                Set.copyOf(
                                        site.machine("jet-1").orElseThrow().byChannel().keySet()),
                                site.machine("jet-1").orElseThrow().limits()));
        List<Input> inputs = new ArrayList<>(said(SIX));
        for (Input input : Played.of("demo", "jet-1").inputs(SIX)) {
            if (!(input instanceof Reading r) || r.channel().isPressure()) {
                inputs.add(input);
            }
        }
        inputs.addAll(said(inputs.get(inputs.size() - 1).atMicros()));
        for (int i = 0; i < inputs.size(); i++) {
            long seq = i + 1;
            batch.fed("jet-1", seq, inputs.get(i));
            watch.feed(inputs.get(i), outcome -> batch.said("jet-1", seq, outcome, site.hash()));
        }
    }

    /** What a source and people say, all of it hostile. */
    private static List<Input> said(long at) {
        String text = HostileText.ALL;
        return List.of(
                new SourceLost(Channel.INLET, at, text),
                new Instruction(at, text, new Order.Journal(Order.Entry.NOTE, text)),
                new Instruction(at, text, new Order.Acknowledge("an alarm " + text)),
                new Instruction(at, text, new Order.Shelve("an alarm " + text, at + 1, text)));
    }

    private static AlarmChange shelved() {
        Finding finding =
                new Finding(
                        Rule.RATIO,
                        Channel.BOOSTED,
                        Grade.WARNING,
                        SIX,
                        SIX,
                        Finding.Quantity.RATIO,
                        1.81,
                        2.0,
                        Finding.Sense.AT_LEAST,
                        Figure.of(40),
                        Figure.of(72.4),
                        List.of(new Remark(Remark.Kind.REPORTED, List.of(), HostileText.ALL)));
        return new AlarmChange(
                OF_JET_1,
                1,
                AlarmEvent.SHELVED,
                AlarmState.UNACKNOWLEDGED,
                AlarmState.SHELVED,
                SIX,
                SIX,
                finding,
                HostileText.ALL,
                new AlarmNotes(
                        AlarmState.UNACKNOWLEDGED,
                        1,
                        false,
                        OptionalLong.of(SIX + 60_000_000),
                        HostileText.ALL,
                        Optional.empty()));
    }

    private static ServiceChange serviced() {
        return new ServiceChange(
                SIX,
                true,
                SIX + 86_400_000_000L,
                HostileText.ALL,
                HostileText.ALL,
                Optional.empty());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "alarms",
                "alarms --all",
                "alarms --history " + OF_JET_1,
                "alarms --wide",
                "journal --wide",
                "journal",
                "journal jet-1",
                "replay jet-1/1",
                "replay jet-1/1 --ascii",
                "replay --machine jet-1 --since 2026-01-05T05:00:00Z",
                "alarms --health --since 2026-01-05",
                "startups",
                "startups --csv",
                "baseline",
                "backtest --machine jet-1 --set rise.warning=9s"
            })
    void list_for_a_person_drives_no_terminal(String command) {
        Ran ran = on(command);

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(ran.out()).isNotBlank();
        HostileText.assertHarmless(ran.out().replace("\r\n", "\n"));
        HostileText.assertHarmless(ran.err());
    }

    @Test
    void what_was_said_is_shown_nevertheless() {
        assertThat(on("alarms").out()).contains("is in service, said \"'`$(reboot);");
        assertThat(on("alarms --wide --history " + OF_JET_1).out()).contains("thief@example.org");
        assertThat(on("journal --wide").out()).contains("$(reboot); DROP TABLE alarm;");
        assertThat(on("replay --machine jet-1 --since 2026-01-05T05:00:00Z").out())
                .contains("An instruction was refused: the alarm an alarm");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "alarms --json",
                "alarms --all --json",
                "journal --json",
                "startups --json",
                "replay jet-1/1 --json",
                "baseline --json",
                "alarms --health --since 2026-01-05 --json"
            })
    void document_for_a_script_parses_and_drives_no_terminal_either(String command)
            throws IOException {
        Ran ran = on(command);

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(MAPPER.readTree(ran.out()).isObject()).isTrue();
        HostileText.assertHarmless(ran.out());
    }

    @Test
    void every_word_comes_back_from_the_documents() throws IOException {
        JsonNode journal = MAPPER.readTree(on("journal --json").out()).path("journal").path(0);
        JsonNode alarms = MAPPER.readTree(on("alarms --json").out());
        JsonNode alarm =
                MAPPER.readTree(on("alarms --json --history " + OF_JET_1).out())
                        .path("alarms")
                        .path(0);

        assertThat(journal.path("by").asText()).isEqualTo(HostileText.WHOLE);
        assertThat(journal.path("text").asText()).isEqualTo(HostileText.WHOLE);
        assertThat(alarm.path("by").asText()).isEqualTo(HostileText.WHOLE);
        assertThat(alarm.path("why").asText()).isEqualTo(HostileText.WHOLE);
        assertThat(alarm.path("detail").asText())
                .isEqualTo(PlainText.harmless(HostileText.ALL, 1000));
        assertThat(alarms.path("in_service").path(0).path("why").asText())
                .isEqualTo(HostileText.WHOLE);
    }

    @Test
    void page_of_a_startup_runs_nothing_and_loads_nothing() throws Exception {
        Path page = folder.resolve("start.html");

        Ran ran = on("replay jet-1/1 --report " + page);

        assertThat(ran.code()).as(ran.err()).isZero();
        assertPageIsHarmless(Files.readString(page));
        assertThat(Files.readString(page)).contains("&lt;script&gt;alert(1)");
    }

    private static void assertPageIsHarmless(String page) throws Exception {
        HostileText.assertHarmless(page.replace("\r\n", "\n"));
        assertThat(page.toLowerCase(Locale.ROOT))
                .doesNotContain("<script", "<img", "<iframe", "javascript:", "http://", "https://")
                .containsOnlyOnce("<style>")
                .containsOnlyOnce("</style>")
                .containsOnlyOnce("</title>");
        String main = page.substring(page.indexOf("<main>"), page.indexOf("</main>") + 7);
        NodeList all =
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new InputSource(new StringReader(main)))
                        .getElementsByTagName("*");
        Set<String> attributes =
                Stream.iterate(0, i -> i < all.getLength(), i -> i + 1)
                        .map(i -> ((Element) all.item(i)).getAttributes())
                        .flatMap(
                                a ->
                                        Stream.iterate(0, i -> i < a.getLength(), i -> i + 1)
                                                .map(i -> a.item(i).getNodeName()))
                        .collect(Collectors.toSet());
        assertThat(attributes)
                .isSubsetOf(
                        Set.of(
                                "class",
                                "viewBox",
                                "role",
                                "aria-hidden",
                                "focusable",
                                "d",
                                "aria-label",
                                "x",
                                "y",
                                "x1",
                                "y1",
                                "x2",
                                "y2",
                                "cx",
                                "cy",
                                "r",
                                "points",
                                "text-anchor",
                                "width",
                                "height"));
    }

    @Test
    void exported_startup_is_judged_as_in_the_store_and_a_hostile_recording_is_only_shown()
            throws Exception {
        Path export = folder.resolve("export.csv");
        Path page = folder.resolve("page.html");
        assertThat(on("export jet-1/1 -o " + export).code()).isZero();

        Ran replayed = Ran.leat("replay", export.toString(), "--report", page.toString());

        assertThat(replayed.code()).as(replayed.err()).isZero();
        HostileText.assertHarmless(replayed.out());
        HostileText.assertHarmless(Files.readString(export).replaceAll("(?m)^# site.yaml:.*", ""));
        assertPageIsHarmless(Files.readString(page));
    }

    @Test
    void recording_that_calls_its_machine_and_site_names_is_only_shown() throws Exception {
        Path file = folder.resolve("foreign.csv");
        Path page = folder.resolve("page.html");
        String megabyte = "x".repeat(40_000);
        RecordingHead head =
                new RecordingHead(
                        "1", HostileText.ALL, HostileText.ALL + megabyte, ZoneOffset.UTC, "", "");
        try (RecordingWriter writer =
                new RecordingWriter(Files.newBufferedWriter(file), head, Played.WIRED)) {
            said(SIX).forEach(writer::write);
            Played.of("demo", "jet-1").inputs(SIX).forEach(writer::write);
        }

        Ran text = Ran.leat("replay", file.toString(), "--report", page.toString());
        Ran json = Ran.leat("replay", file.toString(), "--json");

        assertThat(text.code()).as(text.err()).isZero();
        HostileText.assertHarmless(text.out());
        HostileText.assertHarmless(text.err());
        assertThat(text.out().lines()).allMatch(line -> line.length() <= 1_000);
        assertPageIsHarmless(Files.readString(page));
        assertThat(MAPPER.readTree(json.out()).isObject()).isTrue();
        HostileText.assertHarmless(json.out() + json.err());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "site: { name: \"x\\e[2J\\u202e\\0\" }",
                "site: { name: \"\\ud83d\" }",
                "site: { name: \"a\\u0085b\" }",
                "\"\\u202e\\e]0;x\\a\": 1",
                "site: { time_zone: \"\\u202e<script>\\r\\nforged\" }",
                "site: { name: x \u202e }\n\u202e: [",
                "%\u202e\nsite: 1",
                "machines: { \"\\u202e\": { } }"
            })
    void mistake_that_quotes_hostile_words_is_told_harmlessly(String yaml) throws IOException {
        Path file = Files.writeString(folder.resolve("bad.yaml"), yaml);

        Ran ran = Ran.leat("check", file.toString());

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("nothing was started").doesNotContain("Exception");
        HostileText.assertHarmless(ran.out() + ran.err());
    }

    @Test
    void hostile_site_is_in_order_and_said_to_be_so() {
        Ran ran = Ran.leat("check", site.toString());

        assertThat(ran.code()).as(ran.err()).isZero();
        HostileText.assertHarmless(ran.out() + ran.err());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "replay \u202e",
                "replay --machine \u202e\u001b[2J --since 1d",
                "startups --machine \u202e\u001b[2J",
                "startups --since \u202e\u001b[2J",
                "alarms --history \u202e\u001b[2J",
                "why \u202e\u001b[2J",
                "why --alarm \u202e\u001b[2J",
                "why jet-1/1 --lang \u202e\u001b[2J",
                "ack \u202e\u001b[2J",
                "service \u202e\u001b[2J on",
                "service jet-1 \u202e\u001b[2J",
                "journal \u202e\u001b[2J text",
                "baseline --machine \u202e\u001b[2J",
                "export \u202e\u001b[2J -o x.csv"
            })
    void word_that_means_nothing_is_quoted_harmlessly(String command) {
        Ran ran = on(command);

        assertThat(ran.code()).isNotZero();
        assertThat(ran.err()).isNotBlank();
        HostileText.assertHarmless(ran.out() + ran.err());
    }

    @Test
    void hostile_name_and_reason_are_left_as_they_were_typed() {
        String whole = HostileText.EACH.get(1) + HostileText.EACH.get(4) + "\u0000\u202e";

        Ran ran =
                Ran.leat(
                        "out-of-service",
                        OF_JET_1,
                        "--by",
                        "Kim\r\n\u001b[2J",
                        "--why",
                        whole,
                        "--site",
                        site.toString());

        assertThat(ran.code()).as(ran.err()).isZero();
        HostileText.assertHarmless(ran.out());
        try (StoreReader reader = StoreReader.open(folder.resolve("data/leat.db"))) {
            assertThat(reader.waiting())
                    .extracting(WaitingInstruction::instruction)
                    .singleElement()
                    .satisfies(
                            left -> {
                                assertThat(left.by()).isEqualTo("Kim\r\n\u001b[2J");
                                assertThat(((Order.Remove) left.order()).why()).isEqualTo(whole);
                            });
        }
    }

    @Test
    void megabyte_of_text_is_refused_with_a_reason_and_nothing_is_left() {
        String megabyte = "\u00e4".repeat(1 << 20);
        String at = site.toString();

        List<Ran> all =
                List.of(
                        Ran.leat("journal", "jet-1", megabyte, "--site", at),
                        Ran.leat("ack", "1", "--by", megabyte, "--site", at),
                        Ran.leat("service", "jet-1", "on", "--why", megabyte, "--site", at),
                        Ran.leat("shelve", "1", "--for", "1h", "--why", megabyte, "--site", at));

        assertThat(all).extracting(Ran::code).containsOnly(2);
        assertThat(all)
                .extracting(Ran::err)
                .allMatch(err -> err.contains(" is too long: 1048576 characters, at most "));
        try (StoreReader reader = StoreReader.open(folder.resolve("data/leat.db"))) {
            assertThat(reader.waiting()).isEmpty();
        }
    }
}
