package leat.service;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.store.Batch;
import leat.store.Owed;
import leat.store.Store;
import leat.store.StoreReader;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What is owed to routes that {@code site.yaml} no longer has: nobody will ever deliver it. At the
 * start it is given up, and the routes that there are get a notice of it, in the same commits. A
 * start that is killed in between goes on with the rest. Confined to the thread that starts leat.
 */
final class GoneRoutes {

    private static final Logger LOG = LoggerFactory.getLogger(GoneRoutes.class);

    static final String WHY = "site.yaml has no route of this name any more";

    /** Messages in memory at once; each slice makes notices of its own. */
    private static final int SLICE = 500;

    private final Set<String> routes;
    private final StoreReader reader;
    private final Store store;
    private final OwedMessages messages;

    /**
     * @param messages knows who is told
     */
    GoneRoutes(Site site, StoreReader reader, Store store, OwedMessages messages) {
        routes = site.routes().stream().map(RouteSettings::name).collect(Collectors.toSet());
        this.reader = reader;
        this.store = store;
        this.messages = messages;
    }

    void giveUp(long nowMicros) {
        for (String route : reader.routesOwed()) {
            if (!routes.contains(route)) {
                LOG.warn(
                        "route {} is no longer in site.yaml: what it was owed is given up, and the"
                                + " other routes are told; messages: {}",
                        route,
                        giveUp(route, nowMicros));
            }
        }
    }

    private int giveUp(String route, long nowMicros) {
        int count = 0;
        List<Owed> slice = reader.owed(route, SLICE);
        while (!slice.isEmpty()) {
            Batch batch = new Batch();
            slice.forEach(message -> batch.givenUp(message.number(), nowMicros, WHY));
            messages.givenUp(slice.stream().map(Owed::message).toList(), WHY, nowMicros, batch);
            store.commit(batch);
            count += slice.size();
            slice = reader.owed(route, SLICE);
        }
        return count;
    }
}
