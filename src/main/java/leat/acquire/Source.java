package leat.acquire;

/**
 * One connection that delivers readings. {@code start} returns at once; {@code close} is
 * idempotent, bounded in time, and ends every thread that the source started.
 */
public interface Source extends AutoCloseable {

    /** The connection's name in the configuration. */
    String name();

    void start();

    /** How it has gone so far, for the health report. Thread-safe. */
    SourceHealth health();

    @Override
    void close();
}
