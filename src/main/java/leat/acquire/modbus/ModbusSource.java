package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import java.util.List;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.acquire.SourceHealth;
import leat.config.ConnectionSettings;

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
 * <p>Thread-safe. It is polled on a thread that it shares with others.
 */
public final class ModbusSource implements Source {

    private enum Life {
        NEW,
        STARTED,
        CLOSED
    }

    private final String name;
    private final PollingThread thread;
    private final PolledConnection connection;
    private final PollCounts counts = new PollCounts();
    private final PollJitter jitter = new PollJitter();
    private Life life = Life.NEW;

    /**
     * Connects to nothing yet.
     *
     * @param settings the connection
     * @param taps the channels that come from it, of all machines, each once
     * @param intake where the readings go
     * @param thread what polls it
     */
    public ModbusSource(
            ConnectionSettings.ModbusTcp settings,
            List<Tap> taps,
            Intake intake,
            PollingThread thread) {
        this.name = settings.name();
        this.thread = requireNonNull(thread, "thread");
        this.connection =
                new PolledConnection(
                        settings, taps, requireNonNull(intake, "intake"), thread, counts, jitter);
    }

    @Override
    public String name() {
        return name;
    }

    /**
     * @throws IllegalStateException when it was started or closed before
     */
    @Override
    public synchronized void start() {
        if (life != Life.NEW) {
            throw new IllegalStateException(name + " can be started once, and not when closed");
        }
        thread.join(connection);
        life = Life.STARTED;
    }

    @Override
    public SourceHealth health() {
        return counts.health();
    }

    /** How late its polls have started since its start; it goes on counting. */
    public PollJitter jitter() {
        return jitter;
    }

    /** Breaks off a poll that waits for its reply. */
    @Override
    public synchronized void close() {
        boolean polled = life == Life.STARTED;
        life = Life.CLOSED;
        if (polled) {
            thread.leave(connection);
        }
    }
}
