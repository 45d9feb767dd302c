package leat.page;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import leat.live.AlarmNow;
import leat.live.GaugeNow;
import leat.live.MachineNow;
import leat.live.OutageNow;
import leat.live.SiteNow;

/**
 * One look at everything that is shown.
 *
 * @param site the machines; empty where the store cannot be read
 * @param unread why it cannot; empty when it can
 * @param workings how the daemon goes
 * @param failing names of the routes that do not get through now
 * @param atMicros when, microseconds UTC
 */
record Seen(
        Optional<SiteNow> site,
        String unread,
        Workings workings,
        Set<String> failing,
        long atMicros) {

    Seen {
        requireNonNull(site, "site");
        requireNonNull(unread, "unread");
        requireNonNull(workings, "workings");
        failing = Set.copyOf(failing);
    }

    List<MachineNow> machines() {
        return site.map(SiteNow::machines).orElse(List.of());
    }

    List<OutageNow> outages() {
        return site.map(SiteNow::outages).orElse(List.of());
    }

    Optional<OutageNow> outageOf(AlarmNow alarm) {
        return site.flatMap(each -> each.outageOf(alarm));
    }

    Optional<MachineNow> machine(String name) {
        return machines().stream().filter(machine -> machine.name().equals(name)).findFirst();
    }

    /** Gauges and contacts that show nothing of this moment. */
    static List<GaugeNow> blind(MachineNow machine) {
        return machine.gauges().stream()
                .filter(gauge -> gauge.showing() != GaugeNow.Showing.NOW)
                .toList();
    }

    /** What is wrong with the store; empty when nothing is. */
    String storeTrouble() {
        return unread.isEmpty() ? workings.storeTrouble() : unread;
    }

    /** Whether leat does not see or tell all that it should. Alarms of machines are no matter. */
    boolean isDegraded() {
        return !troubles().isEmpty();
    }

    /** What is wrong, each in a word for programs. */
    List<String> troubles() {
        List<String> troubles = new ArrayList<>();
        if (!storeTrouble().isEmpty()) {
            troubles.add("store");
        }
        if (machines().stream().anyMatch(machine -> !blind(machine).isEmpty())) {
            troubles.add("channel");
        }
        if (workings.sources().values().stream().anyMatch(source -> !source.connected())) {
            troubles.add("source");
        }
        if (!failing.isEmpty()) {
            troubles.add("route");
        }
        if (workings.faults() > 0) {
            troubles.add("fault");
        }
        return List.copyOf(troubles);
    }
}
