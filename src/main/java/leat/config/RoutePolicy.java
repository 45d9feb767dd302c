package leat.config;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.time.LocalTime;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * When the messages of a route are told. Immutable.
 *
 * @param quietHours in which only CRITICAL is told, and the rest at their end
 * @param escalateAfter how long a WARNING or CRITICAL must have stood unacknowledged before this
 *     route is called; empty for a route that is told at once
 * @param repeatEvery how often an unacknowledged WARNING or CRITICAL is told again; empty for never
 * @param atMost messages of one machine in ten minutes that are told one by one; empty for all
 * @param allIsWell when this route is told each day how it goes, on the site's clock; empty for
 *     never
 * @param advisories when this route is told each day, in one message, what came of ADVISORY alarms,
 *     on the site's clock; empty for one by one
 */
public record RoutePolicy(
        Optional<QuietHours> quietHours,
        Optional<Duration> escalateAfter,
        Optional<Duration> repeatEvery,
        OptionalInt atMost,
        Optional<LocalTime> allIsWell,
        Optional<LocalTime> advisories) {

    /** Everything at once. */
    public static final RoutePolicy AT_ONCE =
            new RoutePolicy(
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    OptionalInt.empty(),
                    Optional.empty());

    public RoutePolicy {
        requireNonNull(quietHours, "quietHours");
        requireNonNull(escalateAfter, "escalateAfter");
        requireNonNull(repeatEvery, "repeatEvery");
        requireNonNull(atMost, "atMost");
        requireNonNull(allIsWell, "allIsWell");
        requireNonNull(advisories, "advisories");
    }

    /** ADVISORY alarms are told one by one. */
    public RoutePolicy(
            Optional<QuietHours> quietHours,
            Optional<Duration> escalateAfter,
            Optional<Duration> repeatEvery,
            OptionalInt atMost,
            Optional<LocalTime> allIsWell) {
        this(quietHours, escalateAfter, repeatEvery, atMost, allIsWell, Optional.empty());
    }

    /**
     * Whether what belongs together may be told in one message: not in the log and on MQTT, where
     * each alarm has its state.
     */
    public boolean folds() {
        return atMost.isPresent();
    }

    /** ADVISORY alarms are told once a day. */
    public RoutePolicy withAdvisories(LocalTime at) {
        return new RoutePolicy(
                quietHours, escalateAfter, repeatEvery, atMost, allIsWell, Optional.of(at));
    }
}
