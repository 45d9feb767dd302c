package leat.page;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import leat.deliver.CourierHealth;

/**
 * Which routes do not get through now: those whose last attempt failed, as far as their counts show
 * from look to look. Thread-confined.
 */
final class RouteSigns {

    private final Map<String, CourierHealth> before = new HashMap<>();
    private final Set<String> failing = new HashSet<>();

    /** The names of those that fail, once a second. */
    Set<String> look(List<CourierHealth> routes) {
        for (CourierHealth now : routes) {
            CourierHealth then = before.put(now.route(), now);
            long delivered = now.delivered() - (then == null ? 0 : then.delivered());
            long failed = now.failed() - (then == null ? 0 : then.failed());
            if (delivered > 0) {
                failing.remove(now.route());
            } else if (failed > 0) {
                failing.add(now.route());
            }
        }
        return Set.copyOf(failing);
    }
}
