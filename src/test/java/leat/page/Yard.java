package leat.page;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import leat.acquire.SourceHealth;
import leat.config.MachineSettings;
import leat.config.PageSettings;
import leat.config.Secret;
import leat.config.Site;
import leat.config.SiteFile;
import leat.deliver.CourierHealth;
import leat.live.SilentAlarms;
import leat.replay.Played;
import leat.signal.Input;
import leat.signal.PressureUnit;
import leat.signal.Reading;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreReader;
import leat.tls.Identity;
import leat.watch.Watch;
import leat.watch.WatchSettings;
import leat.words.Language;

/**
 * A boatyard at which the demo has been playing for 80 s: jet-1 has started well and has a leaking
 * valve, jet-2 is weak. Time stands still there, and its page is opened as often as a test likes.
 */
final class Yard implements AutoCloseable {

    /** What the tests are let in with. */
    static final String TOKEN = "0123456789abcdef0123456789abcdef";

    private static final long SIX = 1_767_592_800_000_000L;
    private static final long NOW = SIX + 80_000_000;

    private final Site site;
    private final Store store;

    private Yard(Site site) {
        this.site = site;
        store = Store.open(site.store().file());
        store.startRun("test", site.hash(), site.text(), SIX);
        site.machines().forEach(this::play);
    }

    static Yard in(Path folder) throws IOException {
        Path file = folder.resolve("site.yaml");
        Files.copy(Path.of("config/boatyard-modbus.yaml"), file);
        return new Yard(SiteFile.load(file, name -> Optional.empty()).site().orElseThrow());
    }

    Site site() {
        return site;
    }

    /** The cabinet that brings all gauges has been away for some seconds. */
    Yard withoutCabinet() {
        Batch batch = new Batch();
        site.machines()
                .forEach(
                        machine ->
                                SilentAlarms.into(
                                        batch, site.hash(), machine.name(), NOW - 5_000_000));
        store.commit(batch);
        return this;
    }

    private void play(MachineSettings machine) {
        WatchSettings settings =
                new WatchSettings(
                        machine.name(),
                        new HashSet<>(machine.byChannel().keySet()),
                        machine.limits());
        Watch watch = new Watch(settings);
        Batch batch = new Batch();
        long seq = 0;
        for (Input input : Played.of("demo", machine.name()).inputs(SIX)) {
            boolean isWired =
                    !(input instanceof Reading reading)
                            || settings.wired().contains(reading.channel());
            if (isWired && input.atMicros() < NOW) {
                long number = ++seq;
                batch.fed(machine.name(), number, input);
                watch.feed(input, said -> batch.said(machine.name(), number, said, site.hash()));
            }
        }
        store.commit(batch);
    }

    /** Everybody may look. */
    Opened open() {
        return open(site, Optional.empty(), Optional.empty());
    }

    /** Whoever looks has to show {@link #TOKEN}. */
    Opened asking() {
        return open(site, Optional.of(new Secret(TOKEN)), Optional.empty());
    }

    /** Likewise over TLS. */
    Opened asking(Identity identity) {
        return open(site, Optional.of(new Secret(TOKEN)), Optional.of(identity));
    }

    /** In German and bar. */
    Opened german() {
        return open(
                new Site(
                        "Bootswerft",
                        site.zone(),
                        Language.GERMAN,
                        PressureUnit.BAR,
                        site.store(),
                        site.connections(),
                        site.machines(),
                        site.routes(),
                        site.instructions(),
                        site.page(),
                        site.hash(),
                        site.text()),
                Optional.empty(),
                Optional.empty());
    }

    /** Its database cannot be read any more. */
    Opened unread() {
        StatusPage page =
                page(
                        site,
                        Optional.empty(),
                        Optional.empty(),
                        () -> StoreReader.open(site.store().file().resolveSibling("gone.db")));
        return new Opened(page, StoreReader.open(site.store().file()));
    }

    private Opened open(Site shown, Optional<Secret> token, Optional<Identity> identity) {
        StoreReader reader = StoreReader.open(site.store().file());
        return new Opened(page(shown, token, identity, () -> reader), reader);
    }

    private StatusPage page(
            Site shown,
            Optional<Secret> token,
            Optional<Identity> identity,
            Supplier<StoreReader> now) {
        StatusPage page =
                new StatusPage(
                        new PageSettings("127.0.0.1", 0, token, identity),
                        shown,
                        now,
                        () -> StoreReader.open(site.store().file()),
                        Yard::workings,
                        () -> NOW,
                        "test");
        page.start();
        await().atMost(Duration.ofSeconds(20))
                .pollInterval(Duration.ofMillis(20))
                .until(() -> page.port().isPresent() && page.hasLooked());
        return page;
    }

    /** A page that is served. */
    record Opened(StatusPage page, StoreReader reader) implements AutoCloseable {

        int port() {
            return page.port().orElseThrow();
        }

        Call.To plain() {
            return Call.To.plain(port());
        }

        @Override
        public void close() {
            page.close();
            reader.close();
        }
    }

    private static Workings workings() {
        return new Workings(
                1_000,
                0,
                0,
                "",
                Map.of("cabinet-1", new SourceHealth(true, 900, 1, 0, "")),
                List.of(new CourierHealth("log", 3, 0, 0, "")));
    }

    @Override
    public void close() {
        store.close();
    }
}
