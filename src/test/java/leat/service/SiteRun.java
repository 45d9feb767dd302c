package leat.service;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.atomic.AtomicLong;
import leat.acquire.Intake;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.deliver.ByTurns;
import leat.deliver.Courier;
import leat.deliver.DeliveryResult;
import leat.deliver.Patience;
import leat.deliver.Route;
import leat.deliver.Wording;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Tick;
import leat.store.Message;
import leat.store.Snapshot;
import leat.store.Store;
import leat.store.StoreReader;
import org.slf4j.LoggerFactory;

/**
 * The daemon's own engine, store, mail and couriers on a {@code site.yaml}, in a time that a test
 * makes pass. In the place of the sources is the test, in the place of each route a letterbox that
 * takes everything.
 *
 * <p>It has two gaits. {@link #second} is that of the daemon. {@link #pass} feeds each watch the
 * same inputs and ticks in the same order, but commits, owes what only time makes due, takes up
 * instructions and delivers once, at its end: a month would else be two and a half million commits.
 * Time stands on whole seconds between two calls. Confined to the test's thread.
 */
public final class SiteRun implements AutoCloseable {

    private static final long SECOND = 1_000_000;

    private final AtomicLong wall;
    private final AtomicLong nanos = new AtomicLong();
    private EventClock clock;
    private Inbox inbox;
    private final Site site;
    private final Map<String, Letterbox> letterboxes = new LinkedHashMap<>();
    private Running running;

    /** What lives from a start of leat to its end. */
    private record Running(
            Store store,
            InstructionInbox desk,
            List<Watched> machines,
            Engine engine,
            List<StoreOutbox> outboxes,
            List<Courier> couriers)
            implements AutoCloseable {

        @Override
        public void close() {
            couriers.forEach(Courier::close);
            outboxes.forEach(StoreOutbox::close);
            desk.close();
            store.close();
        }
    }

    /**
     * A message as somebody got it.
     *
     * @param atMicros event time at which it was delivered, microseconds UTC
     */
    public record Delivered(long atMicros, Message message) {}

    /**
     * Starts on a fresh store.
     *
     * @param folder of the site file and the store; empty
     * @param yaml the site, without a mistake
     * @param start a whole second
     */
    public SiteRun(Path folder, String yaml, Instant start) throws IOException {
        Path file = Files.writeString(folder.resolve("site.yaml"), yaml);
        site = SiteFile.load(file, name -> Optional.empty()).site().orElseThrow();
        wall = new AtomicLong(ChronoUnit.MICROS.between(Instant.EPOCH, start));
        site.routes().forEach(r -> letterboxes.put(r.name(), new Letterbox(r.name())));
        running = start();
    }

    /** As {@link Daemon} does it. */
    private Running start() {
        clock = new EventClock(wall::get, nanos::get);
        inbox = new Inbox(clock);
        Store store = Store.open(database());
        StoreView view = new StoreView(database(), store::generation);
        StoreReader reader = view.reader();
        List<Watched> machines = new Resume(reader, site, text -> Optional.empty()).machines();
        OwedMessages messages = OwedMessages.takenUp(site, reader, clock.nowMicros());
        InstructionInbox desk = new InstructionInbox(view);
        store.startRun("test", site.hash(), site.text(), clock.nowMicros());
        UnstoredMessages unstored = new UnstoredMessages(new Wording(site)::unstored, () -> {});
        Engine engine =
                new Engine(
                        clock,
                        inbox,
                        store,
                        desk,
                        messages,
                        unstored,
                        site.hash(),
                        machines,
                        () -> {});
        List<StoreOutbox> outboxes = new ArrayList<>();
        List<Courier> couriers = new ArrayList<>();
        for (RouteSettings settings : site.routes()) {
            StoreOutbox outbox =
                    new StoreOutbox(new StoreView(database(), store::generation), engine, unstored);
            outboxes.add(outbox);
            couriers.add(courier(settings, outbox));
        }
        engine.sayThatItWasDown();
        return new Running(store, desk, machines, engine, outboxes, couriers);
    }

    private Courier courier(RouteSettings settings, StoreOutbox outbox) {
        return new Courier(
                letterboxes.get(settings.name()),
                outbox,
                new Patience(settings.scope().giveUpAfter(), clock::nowMicros),
                () -> isQuiet(settings),
                nanos::get,
                () -> 0);
    }

    private boolean isQuiet(RouteSettings route) {
        Instant now = Instant.EPOCH.plus(clock.nowMicros(), ChronoUnit.MICROS);
        return route.scope()
                .policy()
                .quietHours()
                .map(hours -> hours.holdAt(now, site.zone()))
                .orElse(false);
    }

    public Site site() {
        return site;
    }

    public Path database() {
        return site.store().file();
    }

    /** Event time, microseconds UTC. */
    public long nowMicros() {
        return clock.nowMicros();
    }

    /** For a test of trouble with it. */
    Store store() {
        return running.store();
    }

    /** What is wrong with it; empty when nothing is. */
    String trouble() {
        return running.engine().trouble();
    }

    /** How the watches stand, in the order of the machines. */
    List<Snapshot> snapshots() {
        return running.machines().stream().map(each -> each.snapshot(0)).toList();
    }

    /** What is due is delivered, whatever became of the second. */
    void deliver() {
        running.couriers().forEach(ByTurns::deliver);
    }

    /** As by kill -9: what was not committed is gone. */
    void killAndStartAgain() {
        running.close();
        running = start();
    }

    /** Where a source may offer what it reads, between two seconds. */
    public Intake intake() {
        return inbox;
    }

    /**
     * A second passes as it does in the daemon.
     *
     * @param given what came of each machine, in the order of time; what belongs to this second is
     *     taken out
     */
    public void second(Map<String, ? extends Queue<Input>> given) throws InterruptedException {
        second(
                1,
                () ->
                        given.forEach(
                                (machine, inputs) -> {
                                    while (isDue(inputs, clock.nowMicros())) {
                                        inbox.offer(machine, inOwnTime(inputs.remove()));
                                    }
                                }));
    }

    /**
     * Likewise with a source that has its turn some times in it, the last time at its end.
     *
     * @param times a divisor of a million
     */
    public void second(int times, Runnable source) throws InterruptedException {
        for (int i = 0; i < times; i++) {
            pass(SECOND / times);
            source.run();
        }
        running.engine().step();
        running.couriers().forEach(ByTurns::deliver);
    }

    /** Time passes in which a source has its turn and the engine, held up, has none. */
    public void late(long micros, Runnable source) {
        pass(micros);
        source.run();
    }

    /** Some seconds pass at once; the engine takes it that its computer stood still meanwhile. */
    public void pass(Map<String, ? extends Queue<Input>> given, Duration time)
            throws InterruptedException {
        long to = clock.nowMicros() + time.toSeconds() * SECOND;
        for (Watched machine : running.machines()) {
            Queue<Input> inputs = given.get(machine.name());
            for (long now = clock.nowMicros() + SECOND; now <= to; now += SECOND) {
                while (isDue(inputs, now)) {
                    running.engine().feed(machine, inputs.remove());
                }
                if (now < to) {
                    running.engine().feed(machine, new Tick(now));
                }
            }
        }
        pass(to - clock.nowMicros());
        Logger log = (Logger) LoggerFactory.getLogger(Engine.class);
        log.setLevel(Level.ERROR);
        running.engine().step();
        log.setLevel(null);
        running.couriers().forEach(ByTurns::deliver);
    }

    /** As a source stamps it. */
    private Input inOwnTime(Input input) {
        return input.at(input.atMicros() - clock.nowMicros() + inbox.nowMicros());
    }

    /** What comes after a step of the clock waits for it. */
    private static boolean isDue(Queue<Input> inputs, long nowMicros) {
        return !inputs.isEmpty()
                && !(inputs.peek() instanceof ClockStep)
                && inputs.peek().atMicros() <= nowMicros;
    }

    private void pass(long micros) {
        wall.addAndGet(micros);
        nanos.addAndGet(micros * 1_000);
    }

    /** Somebody sets the computer's clock, and the engine finds out. */
    public void setClock(ClockStep step) throws InterruptedException {
        wall.addAndGet(step.atMicros() - step.fromMicros());
        running.engine().step();
    }

    /** An orderly end; what is delivered last is marked too. */
    public void end() {
        running.engine().finish();
        running.couriers().forEach(ByTurns::deliver);
        running.engine().finish();
        running.store().endRun(clock.nowMicros());
        running.close();
    }

    /** A start after an end and so long without current. */
    public void startAgain(Duration down) {
        pass(down.toSeconds() * SECOND);
        running = start();
    }

    /** Likewise, and by then the computer's clock has been set. */
    public void startAgainAt(Instant time) {
        wall.set(ChronoUnit.MICROS.between(Instant.EPOCH, time));
        running = start();
    }

    /** What came in on a route, in order. */
    public List<Delivered> delivered(String route) {
        return List.copyOf(letterboxes.get(route).delivered);
    }

    @Override
    public void close() {
        running.close();
    }

    private final class Letterbox implements Route {
        private final String name;
        private final List<Delivered> delivered = new ArrayList<>();

        Letterbox(String name) {
            this.name = name;
        }

        @Override
        public String name() {
            return name;
        }

        @Override
        public void start(Runnable reachable) {
            // always reachable
        }

        @Override
        public DeliveryResult deliver(Message message) {
            delivered.add(new Delivered(clock.nowMicros(), message));
            return DeliveryResult.DELIVERED;
        }

        @Override
        public void close() {
            // nothing is open
        }
    }
}
