package leat.service;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import leat.config.Site;
import leat.config.SiteFile;
import leat.replay.Overheard;
import leat.replay.Played;
import leat.replay.Replayed;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.store.Store;
import leat.store.StoreReader;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/**
 * The daemon's own engine on a real store, in a time that a test makes pass: a bench scenario is
 * offered to its inbox as the sources offer what they read. One machine, jet-1, with its run
 * signal.
 */
final class LiveRun implements AutoCloseable {

    static final String MACHINE = "jet-1";

    private static final long START = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z
    private static final long HALF_SECOND = 500_000;

    private final AtomicLong wall = new AtomicLong(START);
    private final AtomicLong nanos = new AtomicLong();
    private final EventClock clock = new EventClock(wall::get, nanos::get);
    private final Inbox inbox = new Inbox(clock);
    private final Site site;
    private final Store store;
    private final InstructionInbox desk;
    private final Watched watched;
    private final Engine engine;
    private long offered;

    LiveRun(Path folder) throws IOException {
        site = site(folder);
        store = Store.open(database());
        StoreView view = new StoreView(database(), store::generation);
        StoreReader reader = view.reader();
        desk = new InstructionInbox(view);
        List<Watched> machines =
                new Resume(reader, site, text -> SiteFile.archived(text).site()).machines();
        watched = machines.get(0);
        OwedMessages messages = OwedMessages.takenUp(site, reader, clock.nowMicros());
        store.startRun("test", site.hash(), site.text(), clock.nowMicros());
        engine =
                new Engine(
                        clock,
                        inbox,
                        store,
                        desk,
                        messages,
                        new UnstoredMessages(m -> m, () -> {}),
                        site.hash(),
                        machines,
                        () -> {});
    }

    private static Site site(Path folder) throws IOException {
        Path file = folder.resolve("site.yaml");
        String yaml = Files.readString(Path.of("config/boatyard-modbus.yaml"));
        int jet1 = yaml.indexOf("# running:");
        String wired =
                yaml.substring(0, jet1)
                        + "running: { from: cabinet-1, register: { unit_id: 1, table:"
                        + " discrete_input, address: 0 } }\n"
                        + yaml.substring(yaml.indexOf("  jet-2:"));
        Files.writeString(
                file, wired.replace("level: { set: 100 psi }", "rise: { advisory: 1.2 s }"));
        return SiteFile.load(file, name -> Optional.empty()).site().orElseThrow();
    }

    Path database() {
        return site.store().file();
    }

    Site site() {
        return site;
    }

    WatchSettings settings() {
        return Watched.watchSettings(site.machine(MACHINE).orElseThrow());
    }

    /** Readings that were offered and taken. */
    long offered() {
        return offered;
    }

    /** Plays one machine of a scenario from now on; every twentieth reading on a whole second. */
    LiveRun play(String scenario, String machine) throws InterruptedException {
        return play(scenario, machine, 50_000);
    }

    /**
     * Likewise, and the engine has its turn each half second.
     *
     * @param laterMicros so long after now the scenario begins
     */
    LiveRun play(String scenario, String machine, long laterMicros) throws InterruptedException {
        long next = clock.nowMicros() + HALF_SECOND;
        for (Input input : Played.of(scenario, machine).inputs(clock.nowMicros() + laterMicros)) {
            if (!(input instanceof Tick)) {
                pass(input.atMicros() - clock.nowMicros());
                if (clock.nowMicros() >= next) {
                    engine.step();
                    next += HALF_SECOND;
                }
                offer(input);
            }
        }
        engine.step();
        return this;
    }

    /** A source says something now. */
    LiveRun offer(Input input) {
        Input own = input.at(input.atMicros() - clock.nowMicros() + inbox.nowMicros());
        if (inbox.offer(MACHINE, own) && input instanceof Reading) {
            offered++;
        }
        return this;
    }

    /** Both pressures are lost and come back with what is played next. */
    LiveRun lose(String reason) {
        offer(new SourceLost(Channel.INLET, clock.nowMicros(), reason));
        return offer(new SourceLost(Channel.BOOSTED, clock.nowMicros(), reason));
    }

    /** Nothing is heard for so long. */
    LiveRun silence(int halfSeconds) throws InterruptedException {
        for (int i = 0; i < halfSeconds; i++) {
            pass(HALF_SECOND);
            engine.step();
        }
        return this;
    }

    /** Somebody sets the clock. */
    LiveRun set(long micros) {
        wall.addAndGet(micros);
        return this;
    }

    private void pass(long micros) {
        wall.addAndGet(micros);
        nanos.addAndGet(micros * 1_000);
    }

    long nowMicros() {
        return clock.nowMicros();
    }

    /** An orderly end, after which both pressures are lost, as a replay ends. */
    Replayed finish() {
        lose("end of the test");
        engine.finish();
        Overheard overheard = new Overheard(settings());
        try (StoreReader reader = StoreReader.open(database())) {
            Map<Long, List<Outcome>> told = new HashMap<>();
            reader.outcomes(
                    MACHINE,
                    0,
                    Long.MAX_VALUE,
                    said ->
                            told.computeIfAbsent(said.seq(), seq -> new ArrayList<>())
                                    .add(said.outcome()));
            reader.inputs(
                    MACHINE,
                    0,
                    Long.MAX_VALUE,
                    (seq, input) -> overheard.fed(input, told.getOrDefault(seq, List.of())));
        }
        return overheard.end(Watch.restore(settings(), watched.snapshot(0).state()));
    }

    @Override
    public void close() {
        desk.close();
        store.close();
    }
}
