package leat.service;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import leat.acquire.Source;
import leat.acquire.SourceHealth;
import leat.config.ConnectionSettings;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.deliver.Courier;
import leat.deliver.Patience;
import leat.deliver.Wording;
import leat.files.OwnFiles;
import leat.instruct.Reception;
import leat.mqtt.MqttLink;
import leat.page.StatusPage;
import leat.page.Workings;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreException;
import leat.store.StoreReader;
import leat.watch.Glance;
import leat.work.Worker;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The daemon of one site: builds every object in order, starts them, and closes them in reverse.
 * {@link #start} returns once everything runs; {@link #close} is idempotent and ends within two
 * seconds with everything committed that came in.
 */
public final class Daemon implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Daemon.class);
    private static final long EDGES_CLOSE_MILLIS = 700;
    private static final Duration LET_ROUND_END = Duration.ofMillis(300);
    private static final Duration ENGINE_CLOSE_WITHIN = Duration.ofMillis(600);
    private static final long LINKS_CLOSE_MILLIS = 400;
    private static final long SECONDS_PER_HOUR = 3_600;

    private final Site site;
    private final Surroundings surroundings;
    private final EventClock clock;
    private final Inbox inbox;
    private final Store store;
    private final InstructionInbox instructions;
    private final List<Watched> machines;
    private final OwedMessages messages;
    private final UnstoredMessages unstored;
    private final Engine engine;
    private final Worker worker;
    private final Map<String, MqttLink> links = new LinkedHashMap<>();
    private final List<Source> sources;
    private final List<Courier> couriers = new ArrayList<>();
    private final List<StoreOutbox> outboxes = new ArrayList<>();
    private final Optional<Reception> reception;
    private final Housekeeping housekeeping;
    private final StoreView shown;
    private final Optional<StatusPage> page;
    private long seconds;
    private boolean closed;

    /**
     * Opens the store and takes up the state of the last run; starts nothing.
     *
     * @param site what to watch
     * @param version of the program, for the store
     * @param archive reads the text of an earlier configuration; empty when it can no longer be
     *     read
     * @throws leat.store.StoreException when the store cannot be opened
     */
    public Daemon(Site site, String version, Function<String, Optional<Site>> archive) {
        this(site, version, archive, Surroundings.REAL);
    }

    /** Likewise, in a time that a test makes pass and with its sources. */
    Daemon(
            Site site,
            String version,
            Function<String, Optional<Site>> archive,
            Surroundings surroundings) {
        this.site = site;
        this.surroundings = surroundings;
        clock = new EventClock(surroundings.wallMicros(), surroundings.nanos());
        inbox = new Inbox(clock);
        Path file = site.store().file();
        store = Store.open(file, new OwnFiles(site.store().group()));
        StoreView view = new StoreView(file, store::generation);
        StoreReader reader = view.reader();
        instructions = new InstructionInbox(view);
        machines = new Resume(reader, site, archive).machines();
        unstored =
                new UnstoredMessages(
                        new Wording(site)::unstored, () -> couriers.forEach(Courier::nudge));
        messages = OwedMessages.takenUp(site, reader, clock.nowMicros());
        writeDownWhereItSetsOut();
        store.startRun(version, site.hash(), site.text(), clock.nowMicros());
        new GoneRoutes(site, reader, store, messages).giveUp(clock.nowMicros());
        housekeeping = new Housekeeping(store, site.store().keepSamples());
        engine =
                new Engine(
                        clock,
                        inbox,
                        store,
                        instructions,
                        messages,
                        unstored,
                        site.hash(),
                        machines,
                        this::committed);
        worker = new Worker("leat-engine", engine::step, LET_ROUND_END, ENGINE_CLOSE_WITHIN);
        buildLinks();
        sources = surroundings.field().sources(site, links, inbox);
        buildRoutes(file);
        reception = reception(file);
        shown = new StoreView(file, store::generation);
        page = page(file, version);
    }

    /**
     * Before the run is entered, so that what follows on these states was judged under the
     * configuration of the run, however soon it is killed.
     */
    private void writeDownWhereItSetsOut() {
        Batch batch = new Batch();
        machines.forEach(machine -> batch.snapshot(machine.snapshot(clock.nowMicros())));
        messages.keep(batch);
        store.commit(batch);
    }

    private void buildLinks() {
        for (ConnectionSettings connection : site.connections()) {
            if (connection instanceof ConnectionSettings.Mqtt mqtt) {
                links.put(mqtt.name(), new MqttLink(mqtt, site.name()));
            }
        }
    }

    private void buildRoutes(Path file) {
        Routes routes = new Routes(site, links);
        for (RouteSettings settings : site.routes()) {
            StoreOutbox outbox =
                    new StoreOutbox(
                            new StoreView(file, store::generation), engine.marks(), unstored);
            outboxes.add(outbox);
            couriers.add(
                    new Courier(
                            settings.tell(routes),
                            outbox,
                            new Patience(settings.scope().giveUpAfter(), clock::nowMicros),
                            () -> isQuiet(settings),
                            surroundings.nanos(),
                            surroundings.chance()));
        }
    }

    private Optional<Reception> reception(Path file) {
        return site.instructions()
                .map(
                        settings ->
                                new Reception(
                                        settings,
                                        links.get(settings.connection()),
                                        file,
                                        site.machines(),
                                        clock::nowMicros));
    }

    private Optional<StatusPage> page(Path file, String version) {
        return site.page()
                .map(
                        settings ->
                                new StatusPage(
                                        settings,
                                        site,
                                        shown::reader,
                                        () -> StoreReader.open(file),
                                        this::workings,
                                        clock::nowMicros,
                                        version));
    }

    private Workings workings() {
        DaemonHealth health = health();
        Map<String, SourceHealth> bySource = new LinkedHashMap<>();
        sources.forEach(source -> bySource.put(source.name(), source.health()));
        return new Workings(
                health.inputs(),
                health.lost(),
                health.faults(),
                health.storeTrouble(),
                bySource,
                health.couriers());
    }

    private boolean isQuiet(RouteSettings route) {
        Instant now = Instant.EPOCH.plus(clock.nowMicros(), ChronoUnit.MICROS);
        return route.scope()
                .policy()
                .quietHours()
                .map(hours -> hours.holdAt(now, site.zone()))
                .orElse(false);
    }

    public void start() {
        engine.sayThatItWasDown();
        worker.start();
        couriers.forEach(Courier::start);
        reception.ifPresent(Reception::start);
        links.values().forEach(MqttLink::start);
        sources.forEach(Source::start);
        page.ifPresent(StatusPage::start);
        LOG.info(
                "watching {} of {} with {} sources and {} routes; store {}",
                machines.stream().map(Watched::name).toList(),
                site.name(),
                sources.size(),
                couriers.size(),
                site.store().file());
    }

    private void committed() {
        couriers.forEach(Courier::nudge);
        housekeeping.second();
        hourly();
    }

    /** A line an hour, so that a log shows that all is well, or since when it is not. */
    private void hourly() {
        seconds++;
        if (seconds % SECONDS_PER_HOUR == 0) {
            DaemonHealth health = health();
            LOG.info(
                    "since the start: {} inputs, {} lost, {} polls missed, {} faults at sources{}",
                    health.inputs(),
                    health.lost(),
                    health.sources().stream().mapToLong(SourceHealth::missed).sum(),
                    health.sources().stream().mapToLong(SourceHealth::faults).sum(),
                    health.sources().stream().allMatch(SourceHealth::connected)
                            ? ""
                            : "; not every source is connected");
        }
    }

    /** What each machine's gauges show, in the order of the configuration; from any thread. */
    public Map<String, Glance> glances() {
        Map<String, Glance> glances = new LinkedHashMap<>();
        machines.forEach(machine -> glances.put(machine.name(), machine.glance()));
        return glances;
    }

    /** How it goes; from any thread. */
    public DaemonHealth health() {
        return new DaemonHealth(
                engine.inputsFed(),
                inbox.lost(),
                worker.faults().count(),
                engine.trouble(),
                sources.stream().map(Source::health).toList(),
                couriers.stream().map(Courier::health).toList(),
                reception.map(Reception::health));
    }

    /** The port that the status page is served on; empty while it is not. */
    public Optional<Integer> pagePort() {
        return page.flatMap(StatusPage::port);
    }

    /** Figures of the whole run, for a measurement; complete after {@link #close}. */
    public RunFigures figures() {
        return RunFigures.of(health(), sources, engine.latency());
    }

    @Override
    public synchronized void close() {
        if (closed) {
            return;
        }
        closed = true;
        List<AutoCloseable> edges = new ArrayList<>();
        page.ifPresent(edges::add);
        edges.addAll(sources);
        edges.addAll(couriers);
        reception.ifPresent(edges::add);
        Closing.all(edges, EDGES_CLOSE_MILLIS);
        boolean inOrder = worker.end() && writeDownTheEnd();
        Closing.all(List.copyOf(links.values()), LINKS_CLOSE_MILLIS);
        outboxes.forEach(StoreOutbox::close);
        instructions.close();
        shown.close();
        emptyTheLog();
        store.close();
        LOG.info(inOrder ? "ended in order" : "ended");
    }

    private void emptyTheLog() {
        try {
            store.checkpoint();
        } catch (StoreException e) {
            LOG.debug("store: the write-ahead log stays for the next run", e);
        }
    }

    /** A disk that takes nothing keeps nobody from ending. */
    private boolean writeDownTheEnd() {
        try {
            if (engine.finish()) {
                store.endRun(clock.nowMicros());
                return true;
            }
        } catch (StoreException e) {
            LOG.error("store: the end of the run is not noted: {}", e.getMessage());
        } catch (RuntimeException e) {
            LOG.error("store: the end of the run is not noted", e);
        }
        return false;
    }
}
