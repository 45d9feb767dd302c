package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * When the messages of a route are told. Immutable.
 *
 * @param quietHours in which only CRITICAL is told, and the rest at their end
 */
public record RoutePolicy(Optional<QuietHours> quietHours) {

    /** Everything at once. */
    public static final RoutePolicy AT_ONCE = new RoutePolicy(Optional.empty());

    public RoutePolicy {
        requireNonNull(quietHours, "quietHours");
    }
}
