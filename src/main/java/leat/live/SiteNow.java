package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * A site as it is now.
 *
 * @param atMicros when it was looked at, microseconds UTC
 * @param daemon whether leat runs
 * @param machines in the order of the site
 */
public record SiteNow(long atMicros, DaemonNow daemon, List<MachineNow> machines) {

    public SiteNow {
        requireNonNull(daemon, "daemon");
        machines = List.copyOf(machines);
    }
}
