package leat.config;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import leat.rule.Grade;

/**
 * Which messages a route carries, and for how long it tries. Immutable.
 *
 * @param atLeast messages of a lower grade are not sent this way
 * @param machines names of the machines whose messages go this way; empty for all
 * @param giveUpAfter age of a message after which it is given up
 * @param policy when it is told
 */
public record RouteScope(
        Grade atLeast, List<String> machines, Duration giveUpAfter, RoutePolicy policy) {

    /** Longer than a weekend, leat's own choice. */
    static final Duration GIVE_UP_AFTER = Duration.ofHours(72);

    public RouteScope {
        requireNonNull(atLeast, "atLeast");
        machines = List.copyOf(machines);
        requireNonNull(giveUpAfter, "giveUpAfter");
        requireNonNull(policy, "policy");
    }

    /** Everything is told at once. */
    public RouteScope(Grade atLeast, List<String> machines, Duration giveUpAfter) {
        this(atLeast, machines, giveUpAfter, RoutePolicy.AT_ONCE);
    }

    /** Every machine, from a grade on. */
    public static RouteScope from(Grade atLeast) {
        return new RouteScope(atLeast, List.of(), GIVE_UP_AFTER);
    }

    public boolean carries(String machine) {
        return machines.isEmpty() || machines.contains(machine);
    }
}
