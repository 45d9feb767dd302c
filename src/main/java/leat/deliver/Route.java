package leat.deliver;

import leat.store.Message;

/**
 * A way on which messages go out. One courier uses it, from one thread. A route delivers at least
 * once: it says "delivered" only when the other side has taken the message over.
 */
public interface Route extends AutoCloseable {

    /** Its name in the configuration. */
    String name();

    /**
     * Begins to serve; returns at once.
     *
     * @param reachable to be run, on any thread, whenever the other side has come back, so that
     *     what waits need not wait for the next try
     */
    void start(Runnable reachable);

    /**
     * Tries once to deliver, within a few seconds. Never throws for expected trouble. An interrupt
     * ends the wait, is kept, and counts as "not now".
     */
    DeliveryResult deliver(Message message);

    /** Gives up what the route itself has opened; idempotent. */
    @Override
    void close();
}
