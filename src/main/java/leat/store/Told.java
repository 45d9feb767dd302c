package leat.store;

import static java.util.Objects.requireNonNull;

/**
 * A route that has been owed a message of an alarm.
 *
 * @param route name of the route
 * @param alarmId the occurrence
 */
public record Told(String route, String alarmId) {

    public Told {
        requireNonNull(route, "route");
        requireNonNull(alarmId, "alarmId");
    }
}
