package leat.deliver;

import java.util.List;
import leat.store.Owed;

/**
 * Where owed messages wait. {@code service} fulfils it over the store: a message is written in the
 * same transaction as the change that it tells of, and is seen here after the commit, or when the
 * store did not take it. Thread-safe. After a {@code RuntimeException} the courier waits and asks
 * again.
 */
public interface Outbox {

    /**
     * The undelivered messages of a route in the order of their numbers.
     *
     * @param afterNumber only messages with a greater number; 0 for all
     * @param atMost longest list returned, at least 1
     */
    Due due(String route, long afterNumber, int atMost);

    /**
     * The same in quiet hours: only what is CRITICAL, with what waits before it of the same alarm,
     * so that each alarm is told in its order.
     */
    Due dueInQuietHours(String route, long afterNumber, int atMost);

    /**
     * Notes that a message was delivered. May take effect later, as long as it comes before any
     * orderly end; what is forgotten in a crash is delivered a second time.
     */
    void delivered(long number);

    /** Notes that a message was tried in vain and stays due. */
    void attempted(long number);

    /**
     * Notes that messages of one route are not tried any more, and owes the other routes a notice
     * of it. May take effect later; what is forgotten in a crash is tried once more.
     *
     * @param owed at least one, in the order of their numbers
     * @param reason why, in plain words with the endpoint
     */
    void givenUp(List<Owed> owed, String reason);
}
