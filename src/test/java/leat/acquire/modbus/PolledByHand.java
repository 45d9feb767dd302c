package leat.acquire.modbus;

import java.util.List;
import leat.acquire.Intake;
import leat.config.ConnectionSettings;

/**
 * A Modbus source that polls when a test says so: the same connection, decoding and stamps, without
 * the thread and its schedule. Confined to the test's thread.
 */
public final class PolledByHand implements AutoCloseable {

    private final Link link;
    private final Poller poller;

    /**
     * Connects at the first poll.
     *
     * @param taps the channels that come from it, each once
     * @param intake where the readings go, and what stamps them
     */
    public PolledByHand(ConnectionSettings.ModbusTcp settings, List<Tap> taps, Intake intake) {
        link = new Link(settings.host(), settings.port(), settings.timeout());
        poller = new Poller(settings, taps, link, intake, new PollCounts());
        poller.begin();
    }

    /** Reads every channel once. */
    public void poll() {
        poller.step();
    }

    @Override
    public void close() {
        link.close();
    }
}
