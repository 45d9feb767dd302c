package leat.deliver;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import leat.rule.Grade;
import leat.store.Message;
import leat.store.Owed;

/** An outbox that lives as long as the test. */
final class MemoryOutbox implements Outbox {

    private final Map<Long, String> routes = new HashMap<>();
    private final TreeMap<Long, Owed> waiting = new TreeMap<>();
    private final List<Long> delivered = new ArrayList<>();
    private final List<Long> attempted = new ArrayList<>();
    private final List<String> givenUp = new ArrayList<>();
    private long lastNumber;
    private int failuresToCome;
    private boolean slow;
    private long unreadable;

    synchronized void owe(String route, Message message) {
        lastNumber++;
        waiting.put(lastNumber, new Owed(lastNumber, 0, message));
        routes.put(lastNumber, route);
    }

    /** The next calls fail, as on a full disk. */
    synchronized void failNext(int calls) {
        failuresToCome = calls;
    }

    /** The store cannot be read: so many messages that were owed first are not shown. */
    synchronized void hide(long first) {
        unreadable = first;
    }

    /** From now on what is delivered is still shown as due, as by a store that commits later. */
    synchronized void setSlow() {
        slow = true;
    }

    @Override
    public synchronized Due due(String route, long afterNumber, int atMost) {
        mayFail();
        return new Due(after(route, Math.max(unreadable, afterNumber), atMost), unreadable == 0);
    }

    private List<Owed> after(String route, long afterNumber, int atMost) {
        return waiting.tailMap(afterNumber, false).values().stream()
                .filter(owed -> routes.get(owed.number()).equals(route))
                .limit(atMost)
                .toList();
    }

    @Override
    public synchronized Due dueInQuietHours(String route, long afterNumber, int atMost) {
        mayFail();
        return new Due(
                after(route, afterNumber, Integer.MAX_VALUE).stream()
                        .filter(owed -> owed.message().grade() == Grade.CRITICAL)
                        .limit(atMost)
                        .toList(),
                true);
    }

    @Override
    public synchronized void delivered(long number) {
        mayFail();
        if (!slow) {
            waiting.remove(number);
        }
        delivered.add(number);
    }

    @Override
    public synchronized void attempted(long number) {
        mayFail();
        attempted.add(number);
    }

    @Override
    public synchronized void givenUp(List<Owed> owed, String reason) {
        mayFail();
        for (Owed message : owed) {
            waiting.remove(message.number());
            givenUp.add(message.number() + " " + reason);
        }
    }

    synchronized List<Long> attempted() {
        return List.copyOf(attempted);
    }

    /** Number and reason of each. */
    synchronized List<String> givenUp() {
        return List.copyOf(givenUp);
    }

    synchronized List<Long> delivered() {
        return List.copyOf(delivered);
    }

    private void mayFail() {
        if (failuresToCome > 0) {
            failuresToCome--;
            throw new IllegalStateException("disk full");
        }
    }
}
