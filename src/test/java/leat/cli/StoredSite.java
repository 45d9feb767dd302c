package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import leat.config.Site;
import leat.config.SiteFile;
import leat.replay.Played;
import leat.signal.Input;
import leat.signal.Reading;
import leat.store.Batch;
import leat.store.Store;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/**
 * The site file of the boatyard, with the store that leat left beside it: what commands look at.
 * Both machines have their two pressures wired. Confined to the test's thread.
 */
final class StoredSite {

    /** 2026-01-05T06:00:00Z, a Monday. */
    static final long SIX = 1_767_592_800_000_000L;

    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final String LIMITS = "level: { set: 100 psi }";

    private final Path file;
    private UnaryOperator<String> wiring = yaml -> yaml;
    private Site site;
    private final Map<String, Watch> watches = new HashMap<>();
    private final Map<String, Long> fed = new HashMap<>();

    private StoredSite(Path file) {
        this.file = file;
    }

    /**
     * A store on which leat was started at six.
     *
     * @param folder for both files; empty
     */
    static StoredSite in(Path folder) throws IOException {
        return in(folder, LIMITS);
    }

    /**
     * Likewise under other limits.
     *
     * @param limits as under {@code limits} of the site file, on one line
     */
    static StoredSite in(Path folder, String limits) throws IOException {
        return new StoredSite(folder.resolve("site.yaml")).startAgain(limits, SIX);
    }

    /**
     * Likewise, and no machine has a gauge before the booster.
     *
     * @param folder for both files; empty
     */
    static StoredSite boostedAlone(Path folder) throws IOException {
        return changed(
                folder, yaml -> yaml.replaceAll("(?s)      inlet:.*?(?=      boosted:)", ""));
    }

    /**
     * Likewise, with another text of the site file.
     *
     * @param folder for both files; empty
     */
    static StoredSite changed(Path folder, UnaryOperator<String> text) throws IOException {
        StoredSite stored = new StoredSite(folder.resolve("site.yaml"));
        stored.wiring = text;
        return stored.startAgain(LIMITS, SIX);
    }

    /**
     * The same site with the same store in another folder; what a test does to it is its own.
     *
     * @param folder for both; empty
     */
    StoredSite copyTo(Path folder) throws IOException {
        StoredSite copy = new StoredSite(folder.resolve("site.yaml"));
        Files.copy(file, copy.file);
        copy.load();
        Files.createDirectories(copy.database().getParent());
        Files.copy(database(), copy.database());
        return copy;
    }

    private void load() throws IOException {
        site = SiteFile.load(file, name -> Optional.empty()).site().orElseThrow();
    }

    /** Leat ends, and is started anew under other limits; its watches know nothing. */
    StoredSite startAgain(String limits, long atMicros) throws IOException {
        String yaml = Files.readString(Path.of("config/boatyard-modbus.yaml"));
        Files.writeString(file, wiring.apply(yaml.replace(LIMITS, limits)));
        load();
        watches.clear();
        try (Store store = Store.open(database())) {
            store.startRun("test", site.hash(), site.text(), atMicros);
            store.endRun(atMicros);
        }
        return this;
    }

    /** The watch of a machine was fed these, and what it said was stored with them. */
    StoredSite saw(String machine, List<Input> inputs) {
        return saw(machine, inputs, outcome -> true);
    }

    /** Likewise, by a leat that gave runs no verdict. */
    StoredSite sawBeforeRunsWereJudged(String machine, List<Input> inputs) {
        return saw(machine, inputs, outcome -> !(outcome instanceof Outcome.RunJudged));
    }

    private StoredSite saw(String machine, List<Input> inputs, Predicate<Outcome> isStored) {
        Watch watch = watches.computeIfAbsent(machine, this::watch);
        commit(
                (batch, hash) -> {
                    for (Input input : inputs) {
                        long seq = fed.merge(machine, 1L, Long::sum);
                        batch.fed(machine, seq, input);
                        watch.feed(
                                input,
                                outcome -> {
                                    if (isStored.test(outcome)) {
                                        batch.said(machine, seq, outcome, hash);
                                    }
                                });
                    }
                });
        return this;
    }

    private Watch watch(String name) {
        return new Watch(
                new WatchSettings(
                        name,
                        site.machine(name).orElseThrow().byChannel().keySet(),
                        site.machine(name).orElseThrow().limits()));
    }

    /** The two pressures of a machine of a bench scenario, and the ticks. */
    static List<Input> pressures(String scenario, String machine, long startMicros) {
        return Played.of(scenario, machine).inputs(startMicros).stream()
                .filter(input -> !(input instanceof Reading r) || r.channel().isPressure())
                .toList();
    }

    /**
     * What a test wants to be there was stored.
     *
     * @param fill given the batch and the hash of the configuration
     */
    StoredSite commit(BiConsumer<Batch, String> fill) {
        Batch batch = new Batch();
        fill.accept(batch, site.hash());
        try (Store store = Store.open(database())) {
            store.commit(batch);
        }
        return this;
    }

    /** The site file. */
    Path file() {
        return file;
    }

    Path database() {
        return site.store().file();
    }

    /** Types a command about this site. */
    Ran leat(String command, String... words) {
        return leatAt(80, command, words);
    }

    /** Likewise, on a terminal of so many columns. */
    Ran leatAt(int columns, String command, String... words) {
        return Ran.at(
                columns,
                Stream.concat(Stream.of(command, "--site", file.toString()), Stream.of(words))
                        .toArray(String[]::new));
    }

    /** Likewise, and reads the one document that it prints when it works. */
    JsonNode json(String command, String... words) throws IOException {
        return json(leat(command, words));
    }

    static JsonNode json(Ran ran) throws IOException {
        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isZero();
        return MAPPER.readTree(ran.out());
    }
}
