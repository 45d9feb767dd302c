package leat.page;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import leat.acquire.SourceHealth;
import leat.deliver.CourierHealth;

/**
 * How the daemon goes about its work, as it tells itself.
 *
 * @param inputs inputs fed since the start
 * @param lost inputs that came faster than they could be taken
 * @param faults steps of the engine that failed with a bug
 * @param storeTrouble what is wrong with the store now; empty when nothing is
 * @param sources each source by the name of its connection
 * @param routes each route
 */
public record Workings(
        long inputs,
        long lost,
        long faults,
        String storeTrouble,
        Map<String, SourceHealth> sources,
        List<CourierHealth> routes) {

    public Workings {
        requireNonNull(storeTrouble, "storeTrouble");
        sources = Collections.unmodifiableMap(new LinkedHashMap<>(sources));
        routes = List.copyOf(routes);
    }
}
