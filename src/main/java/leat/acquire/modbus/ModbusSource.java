package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.locks.LockSupport;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.acquire.SourceHealth;
import leat.config.ConnectionSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Polls the channels of one Modbus TCP connection at a fixed rate and offers their readings; says
 * when a channel falls silent, and when it is back. It only reads: function codes 1 to 4.
 *
 * <p>All channels that one request reads share one stamp, the middle between request and reply. A
 * poll that takes longer than the period costs the polls that it overruns by more than half a
 * period; they are counted, never made up for. A device that answers with an exception gives BAD
 * readings; one that does not answer gives none, and is lost after two periods, but not before a
 * second.
 *
 * <p>Thread-safe. Has one thread of its own between {@link #start} and {@link #close}.
 */
public final class ModbusSource implements Source {

    private static final Duration CLOSE_WITHIN = Duration.ofMillis(1500);

    /** 2^64 over the golden ratio: spreads the polls of many sources evenly over the period. */
    private static final long SPREAD = 0x9E37_79B9_7F4A_7C15L;

    private static final Logger LOG = LoggerFactory.getLogger(ModbusSource.class);

    private final ConnectionSettings.ModbusTcp settings;
    private final Link link;
    private final Poller poller;
    private final PollCounts counts = new PollCounts();
    private final PollJitter jitter = new PollJitter();
    private final KnownFaults bugs = new KnownFaults();
    private final Thread thread;
    private final AtomicBoolean started = new AtomicBoolean();
    private final AtomicBoolean closed = new AtomicBoolean();

    /**
     * Connects to nothing yet.
     *
     * @param settings the connection
     * @param taps the channels that come from it, of all machines, each once
     * @param intake where the readings go
     */
    public ModbusSource(ConnectionSettings.ModbusTcp settings, List<Tap> taps, Intake intake) {
        this.settings = requireNonNull(settings, "settings");
        this.link = new Link(settings.host(), settings.port(), settings.timeout());
        this.poller = new Poller(settings, taps, link, requireNonNull(intake, "intake"), counts);
        this.thread = new Thread(this::run, "modbus-" + settings.name());
        this.thread.setDaemon(true);
    }

    @Override
    public String name() {
        return settings.name();
    }

    /**
     * @throws IllegalStateException when it was started or closed before
     */
    @Override
    public void start() {
        if (closed.get() || !started.compareAndSet(false, true)) {
            throw new IllegalStateException(name() + " can be started once, and not when closed");
        }
        thread.start();
    }

    @Override
    public SourceHealth health() {
        return counts.health();
    }

    /** How late its polls have started since its start; it goes on counting. */
    public PollJitter jitter() {
        return jitter;
    }

    @Override
    public void close() {
        if (!closed.compareAndSet(false, true)) {
            return;
        }
        link.abort();
        LockSupport.unpark(thread);
        try {
            thread.join(CLOSE_WITHIN.toMillis());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        if (thread.isAlive()) {
            LOG.warn(
                    "{}: thread {} has not ended, it is at {}",
                    name(),
                    thread.getName(),
                    Arrays.toString(thread.getStackTrace()));
        }
    }

    private void run() {
        long period = settings.poll().toNanos();
        poller.begin();
        Schedule schedule = new Schedule(System.nanoTime() + phase(period), period);
        while (awaitDeadline(schedule.deadlineNanos())) {
            jitter.add(System.nanoTime() - schedule.deadlineNanos());
            step();
            counts.missed(schedule.advance(System.nanoTime()));
        }
        link.close();
    }

    private void step() {
        try {
            poller.step();
        } catch (RuntimeException e) {
            String bug = "fault in leat while polling: " + e;
            counts.fault(bug);
            link.close();
            if (bugs.isNew(bug)) {
                LOG.error("{}: {}", name(), bug, e);
            }
        }
    }

    /** Waits for the deadline; false when the source is closed. */
    private boolean awaitDeadline(long deadlineNanos) {
        long left = deadlineNanos - System.nanoTime();
        while (left > 0 && !closed.get()) {
            LockSupport.parkNanos(this, left);
            left = deadlineNanos - System.nanoTime();
        }
        return !closed.get();
    }

    private long phase(long period) {
        double share = (name().hashCode() * SPREAD >>> 11) * 0x1p-53;
        return (long) (share * period);
    }
}
