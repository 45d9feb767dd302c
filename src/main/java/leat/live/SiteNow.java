package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * A site as it is now.
 *
 * @param atMicros when it was looked at, microseconds UTC
 * @param daemon whether leat runs
 * @param machines in the order of the site
 * @param outages the alarms that stand of channels that fell silent together
 */
public record SiteNow(
        long atMicros, DaemonNow daemon, List<MachineNow> machines, List<OutageNow> outages) {

    public SiteNow {
        requireNonNull(daemon, "daemon");
        machines = List.copyOf(machines);
        outages = List.copyOf(outages);
    }

    /** The outage that an alarm is of. */
    public Optional<OutageNow> outageOf(AlarmNow alarm) {
        return outages.stream().filter(each -> each.has(alarm.alarm())).findFirst();
    }
}
