package leat.page;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What everybody who looks in the same second gets; made once.
 *
 * @param parts the parts of the page that can change, as HTML by the id of their place
 * @param page the whole page
 * @param health for programs
 * @param metrics for programs
 */
record Snapshot(Map<String, String> parts, Answer page, Answer health, Answer metrics) {

    Snapshot {
        parts = Collections.unmodifiableMap(new LinkedHashMap<>(parts));
        requireNonNull(page, "page");
        requireNonNull(health, "health");
        requireNonNull(metrics, "metrics");
    }

    /** Those parts that are other than in an earlier one. */
    Map<String, String> freshSince(Map<String, String> earlier) {
        Map<String, String> fresh = new LinkedHashMap<>(parts);
        fresh.entrySet().removeIf(part -> part.getValue().equals(earlier.get(part.getKey())));
        return fresh;
    }
}
