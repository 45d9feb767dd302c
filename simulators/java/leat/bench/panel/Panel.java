package leat.bench.panel;

import java.time.Instant;
import java.util.List;
import leat.bench.scenario.Sample;

/** A simulated field device. Thread-safe. */
public interface Panel extends AutoCloseable {

    /**
     * Shows these samples from now on. Returns at once: what a network cannot take is dropped.
     *
     * @param at the time of day that the samples were taken at
     */
    void show(Instant at, List<Sample> samples);

    /** How a {@code site.yaml} reads the machines on this panel. */
    Wiring wiring();

    /** Ends its sockets and threads within about a second; may be called again. */
    @Override
    void close();
}
