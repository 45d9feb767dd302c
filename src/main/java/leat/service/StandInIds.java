package leat.service;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.Set;
import leat.store.StandIn;

/**
 * Ids of the messages that stand for others. Such a message is made once and cannot take up any
 * more: when the clock was set back into a time whose message has been made, what is folded then
 * needs another id, or it would never be told. The newest ten thousand are remembered. Confined to
 * the engine thread.
 */
final class StandInIds {

    private static final int MOST = 10_000;

    private final Set<StandIn> used = new LinkedHashSet<>();

    /**
     * @param used those of earlier runs
     */
    StandInIds(Collection<StandIn> used) {
        used.forEach(each -> use(each.route(), each.messageId()));
    }

    /** The id itself or, where it is used up, the next one with a number behind it. */
    String free(String route, String id) {
        String free = id;
        for (int next = 2; used.contains(new StandIn(route, free)); next++) {
            free = id + "/" + next;
        }
        return free;
    }

    /** The message has been made. */
    void use(String route, String id) {
        used.add(new StandIn(route, id));
        if (used.size() > MOST) {
            used.remove(used.iterator().next());
        }
    }
}
