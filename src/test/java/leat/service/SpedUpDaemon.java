package leat.service;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.acquire.SourceHealth;
import leat.config.Site;
import leat.config.SiteFile;
import leat.deliver.CourierHealth;
import leat.signal.Input;
import leat.watch.Glance;

/**
 * The whole daemon, but for its clocks and its field: both are in the hands of a test. Event time
 * and the pauses of couriers run as fast as the test lets them, sockets and their time-outs in real
 * time. Belongs to the test's thread; {@code nowMicros}, {@code route} and {@code faults} are
 * thread-safe.
 */
public final class SpedUpDaemon implements AutoCloseable {

    private static final long NANOS_PER_MICRO = 1_000;

    private final AtomicLong micros;
    private final Daemon daemon;
    private Intake intake;

    /**
     * @param startMicros event time of its start, microseconds UTC
     * @param seed of the chance that spreads the pauses
     */
    public SpedUpDaemon(Site site, long startMicros, long seed) {
        micros = new AtomicLong(startMicros);
        Random chance = new Random(seed);
        daemon =
                new Daemon(
                        site,
                        "test",
                        text -> SiteFile.archived(text).site(),
                        new Surroundings(
                                micros::get,
                                () -> micros.get() * NANOS_PER_MICRO,
                                chance::nextDouble,
                                (s, links, to) -> {
                                    intake = to;
                                    return List.of(new Hand());
                                }));
    }

    public void start() {
        daemon.start();
    }

    /** Event time now, microseconds UTC. */
    public long nowMicros() {
        return micros.get();
    }

    /** Time passes; the engine notices with the next input. */
    public void pass(long byMicros) {
        micros.addAndGet(byMicros);
    }

    /** The field says something. */
    public void offer(String machine, Input input) {
        if (!intake.offer(machine, input)) {
            throw new IllegalStateException("the inbox is full");
        }
    }

    /** Up to which second the engine has judged a machine, microseconds UTC. */
    public long judgedMicros(String machine) {
        return daemon.glances().get(machine).tickMicros();
    }

    /** Readings of a machine that the watch did not take. */
    public long dropped(String machine) {
        Glance glance = daemon.glances().get(machine);
        return glance.outOfOrder() + glance.ahead();
    }

    /** How it goes on a route. */
    public CourierHealth route(String name) {
        Optional<CourierHealth> health =
                daemon.health().couriers().stream().filter(c -> c.route().equals(name)).findAny();
        return health.orElseThrow();
    }

    /** Steps of the engine that failed with a bug. */
    public long faults() {
        return daemon.health().faults();
    }

    @Override
    public void close() {
        daemon.close();
    }

    /** Who feeds the inbox is the test itself. */
    private static final class Hand implements Source {
        @Override
        public String name() {
            return "hand";
        }

        @Override
        public void start() {
            // the test feeds
        }

        @Override
        public SourceHealth health() {
            return new SourceHealth(true, 0, 0, 0, "");
        }

        @Override
        public void close() {
            // nothing was opened
        }
    }
}
