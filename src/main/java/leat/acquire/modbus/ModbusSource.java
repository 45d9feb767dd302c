package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.acquire.SourceHealth;
import leat.config.ConnectionSettings;
import leat.work.Worker;

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

    private static final Duration LET_POLL_END = Duration.ofMillis(1000);
    private static final Duration CLOSE_WITHIN = Duration.ofMillis(1500);

    /** 2^64 over the golden ratio: spreads the polls of many sources evenly over the period. */
    private static final long SPREAD = 0x9E37_79B9_7F4A_7C15L;

    private final ConnectionSettings.ModbusTcp settings;
    private final Link link;
    private final Poller poller;
    private final PollCounts counts = new PollCounts();
    private final PollJitter jitter = new PollJitter();
    private final Worker worker;

    /** Of the polling thread alone; empty before its first step. */
    private Optional<Schedule> schedule = Optional.empty();

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
        this.worker =
                new Worker("modbus-" + settings.name(), this::step, LET_POLL_END, CLOSE_WITHIN);
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
        if (!worker.start()) {
            throw new IllegalStateException(name() + " can be started once, and not when closed");
        }
    }

    @Override
    public SourceHealth health() {
        return counts.health();
    }

    /** How late its polls have started since its start; it goes on counting. */
    public PollJitter jitter() {
        return jitter;
    }

    /**
     * Polls when the next poll is due.
     *
     * @return how long it is until then
     */
    Duration step() {
        if (schedule.isEmpty()) {
            begin();
        }
        Schedule polls = schedule.orElseThrow();
        long late = System.nanoTime() - polls.deadlineNanos();
        if (late >= 0) {
            jitter.add(late);
            poll(polls);
        }
        return Duration.ofNanos(polls.deadlineNanos() - System.nanoTime());
    }

    /** Silence, and the deadlines of the polls, count from now. */
    private void begin() {
        long period = settings.poll().toNanos();
        poller.begin();
        schedule = Optional.of(new Schedule(System.nanoTime() + phase(period), period));
    }

    private void poll(Schedule polls) {
        try {
            poller.step();
        } catch (RuntimeException e) {
            counts.fault("fault in leat while polling: " + e);
            link.close();
            throw e;
        } finally {
            counts.missed(polls.advance(System.nanoTime()));
        }
    }

    /** Breaks off a poll that waits for its reply. */
    @Override
    public void close() {
        link.abort();
        if (worker.end()) {
            link.close();
        }
    }

    private long phase(long period) {
        double share = (name().hashCode() * SPREAD >>> 11) * 0x1p-53;
        return (long) (share * period);
    }
}
