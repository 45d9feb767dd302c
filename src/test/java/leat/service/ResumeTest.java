package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import leat.config.Site;
import leat.config.SiteFile;
import leat.measure.Measurand;
import leat.rule.Baseline;
import leat.rule.Usual;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.store.Batch;
import leat.store.Snapshot;
import leat.store.Store;
import leat.store.StoreReader;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;
import leat.wire.StateBytes;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.slf4j.LoggerFactory;

class ResumeTest {

    private static final long SIX = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z

    private final Logger logger = (Logger) LoggerFactory.getLogger(Resume.class);
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();

    @TempDir Path folder;

    @BeforeEach
    void listen() {
        log.start();
        logger.addAppender(log);
    }

    @AfterEach
    void stop_listening() {
        logger.detachAppender(log);
    }

    /** Damaged, and written by a leat of before there were names in it. */
    static Stream<byte[]> states_that_cannot_be_taken_up() throws IOException {
        return Stream.of(
                new byte[] {1, 2, 3},
                Files.readAllBytes(Path.of("src/test/resources/leat/service/format-7.state")));
    }

    @ParameterizedTest
    @MethodSource("states_that_cannot_be_taken_up")
    void a_watch_that_must_begin_afresh_still_knows_what_is_usual_for_its_machine(byte[] state)
            throws Exception {
        Site site = site();
        Baseline baseline =
                new Baseline(SIX, List.of(SIX - 1), Map.of(Measurand.TOP, new Usual(99, 1, 1)));

        Watched jet1 = resumed(site, baseline, state);

        WatchSettings settings = Watched.watchSettings(site.machine("jet-1").orElseThrow());
        assertThat(jet1.isAfresh()).isTrue();
        assertThat(jet1.snapshot(SIX).state())
                .isEqualTo(new Watch(settings.knowing(Optional.of(baseline))).snapshot())
                .isNotEqualTo(new Watch(settings).snapshot());
        assertThat(said())
                .anyMatch(line -> line.startsWith("jet-1: the state of the last run cannot be"));
    }

    @Test
    void what_a_later_version_stored_more_is_passed_over_and_said() throws Exception {
        byte[] state = StateBytes.of(Watch.FORMAT, fields -> fields.keep("ofLater", 1));
        Baseline baseline =
                new Baseline(SIX, List.of(SIX - 1), Map.of(Measurand.TOP, new Usual(99, 1, 1)));

        Watched jet1 = resumed(site(), baseline, state);

        assertThat(jet1.isAfresh()).isFalse();
        assertThat(said())
                .contains("jet-1: fields of the last run's state unknown to this version: 1");
    }

    /** Its states are of before there were names in them. */
    @Test
    void a_store_of_version_3_is_taken_up_with_the_baseline_that_it_holds() throws Exception {
        Site site = site();
        Files.createDirectories(site.store().file().getParent());
        try (InputStream packed = StoreReader.class.getResourceAsStream("version-3.db.gz")) {
            Files.copy(new GZIPInputStream(packed), site.store().file());
        }
        Store.open(site.store().file()).close();

        Watched jet1;
        Optional<Baseline> stored;
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            jet1 = new Resume(reader, site, text -> Optional.of(site)).machines().get(0);
            stored = reader.baselineAfter("jet-1", jet1.seq());
        }

        WatchSettings settings = Watched.watchSettings(site.machine("jet-1").orElseThrow());
        assertThat(stored).isPresent();
        assertThat(jet1.seq()).isEqualTo(51_671);
        assertThat(jet1.snapshot(SIX).state())
                .isEqualTo(new Watch(settings.knowing(stored)).snapshot());
        assertThat(said())
                .anyMatch(line -> line.startsWith("jet-1: the state of the last run cannot be"));
    }

    /** As each run has stored it until who is told got words of its own. */
    private static String inTheWordsOfBefore(String text) {
        return text.substring(0, text.indexOf("tell:"))
                + "routes: { log: { log: { at_least: ADVISORY } } }\n";
    }

    @Test
    void inputs_of_a_run_whose_stored_text_still_has_routes_are_judged_as_they_were_then()
            throws Exception {
        Site site = site();
        String then = site.text().replace("\nlimits:\n", "\nlimits:\n  signal: { missing: 2 s }\n");

        byte[] wordsOfNow = resumedAfterASilence("now", site, then);
        byte[] wordsOfBefore = resumedAfterASilence("before", site, inTheWordsOfBefore(then));
        byte[] judgedByToday = resumedAfterASilence("unreadable", site, "not a site");

        assertThat(wordsOfBefore).isEqualTo(wordsOfNow).isNotEqualTo(judgedByToday);
    }

    /** The state of the first machine, which was silent for longer than it might be then. */
    private byte[] resumedAfterASilence(String name, Site site, String text) throws Exception {
        Path file = folder.resolve(name + ".db");
        Batch batch = new Batch();
        long seq = 0;
        for (long second = 0; second < 10; second++) {
            long at = SIX + second * 1_000_000;
            if (second < 6) {
                batch.fed("jet-1", ++seq, Reading.good(Channel.BOOSTED, at, 90));
            }
            batch.fed("jet-1", ++seq, new Tick(at));
        }
        try (Store store = Store.open(file)) {
            store.startRun("test", "hash of " + name, text, SIX);
            store.commit(batch);
        }
        try (StoreReader reader = StoreReader.open(file)) {
            return new Resume(reader, site, kept -> SiteFile.archived(kept).site())
                    .machines()
                    .get(0)
                    .snapshot(SIX)
                    .state();
        }
    }

    private Site site() throws IOException {
        Path file = folder.resolve("site.yaml");
        Files.copy(Path.of("config/boatyard-modbus.yaml"), file);
        return SiteFile.load(file, name -> Optional.empty()).site().orElseThrow();
    }

    /** The first machine after a run that stored a baseline and then this state. */
    private static Watched resumed(Site site, Baseline baseline, byte[] state) {
        Batch batch = new Batch();
        batch.fed("jet-1", 1, new Tick(SIX));
        batch.said("jet-1", 1, new Outcome.BaselineLearned(baseline), site.hash());
        batch.snapshot(new Snapshot("jet-1", 1, SIX, 1, state));
        try (Store store = Store.open(site.store().file())) {
            store.startRun("test", site.hash(), site.text(), SIX);
            store.commit(batch);
        }
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            return new Resume(reader, site, text -> Optional.of(site)).machines().get(0);
        }
    }

    private List<String> said() {
        return log.list.stream().map(ILoggingEvent::getFormattedMessage).toList();
    }
}
