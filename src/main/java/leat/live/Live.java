package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.store.MachineHead;
import leat.store.Run;
import leat.store.StoreReader;
import leat.store.StoredAlarm;

/**
 * What is so now at a site, read from its store, for eyes. Ask it once a second: it reads only what
 * has come since it was asked last, and what it reads at first is bounded too.
 *
 * <p>Channels and limits are those that the daemon was started with, whatever {@code site.yaml}
 * says by now; a machine that it does not know yet is taken from {@code site.yaml}.
 *
 * <p>Confined to the thread of its reader, which it does not close. It throws the reader's {@link
 * leat.store.StoreException}; ask it again, or make a new one over a new reader.
 */
public final class Live {

    private final StoreReader reader;
    private final Site site;
    private Site inForce;
    private Optional<Run> run = Optional.empty();
    private Map<String, MachineView> machines = new LinkedHashMap<>();
    private Map<String, AlarmNow> alarms = new HashMap<>();

    private Live(StoreReader reader, Site site) {
        this.reader = requireNonNull(reader, "reader");
        this.site = requireNonNull(site, "site");
        inForce = site;
        machines = views(site);
    }

    public static Live over(StoreReader reader, Site site) {
        return new Live(reader, site);
    }

    /** As it is at a time, microseconds UTC. */
    public SiteNow now(long nowMicros) {
        begin(reader.runs(1).stream().findFirst());
        List<MachineHead> heads = reader.heads();
        heads.forEach(
                head ->
                        Optional.ofNullable(machines.get(head.machine()))
                                .ifPresent(view -> view.look(reader, head)));
        readAlarms();
        List<MachineNow> now = new ArrayList<>();
        machines.forEach((name, view) -> now.add(view.now(nowMicros, alarmsOf(name))));
        return new SiteNow(
                nowMicros,
                DaemonNow.of(run, stored(heads), nowMicros),
                now,
                OutageNow.among(standing(now), inForce));
    }

    /** A run under another configuration has other channels and limits. */
    private void begin(Optional<Run> latest) {
        boolean isOther = !latest.map(Run::configHash).equals(run.map(Run::configHash));
        run = latest;
        if (isOther) {
            Optional<Site> then =
                    latest.flatMap(r -> reader.configText(r.configHash()))
                            .flatMap(text -> SiteFile.archived(text).site());
            inForce = then.orElse(site);
            machines = views(inForce);
        }
    }

    private Map<String, MachineView> views(Site then) {
        Map<String, MachineView> views = new LinkedHashMap<>();
        for (MachineSettings machine : site.machines()) {
            MachineSettings inForce = then.machine(machine.name()).orElse(machine);
            views.put(machine.name(), new MachineView(inForce));
        }
        return views;
    }

    /** Why an alarm is there changes only with the alarm. */
    private void readAlarms() {
        Map<String, AlarmNow> now = new HashMap<>();
        for (StoredAlarm stored : reader.standingAlarms()) {
            String id = stored.change().alarmId();
            AlarmNow known = alarms.get(id);
            boolean isAsKnown = known != null && known.alarm().equals(stored);
            now.put(id, isAsKnown ? known : new AlarmNow(stored, reader.causesOf(id)));
        }
        alarms = now;
    }

    private List<AlarmNow> alarmsOf(String machine) {
        return alarms.values().stream()
                .filter(each -> each.alarm().machine().equals(machine))
                .sorted(Comparator.comparing(AlarmNow::alarm, StoredAlarm.WORST_FIRST))
                .toList();
    }

    private static List<StoredAlarm> standing(List<MachineNow> machines) {
        return machines.stream()
                .flatMap(machine -> machine.alarms().stream())
                .map(AlarmNow::alarm)
                .toList();
    }

    private static OptionalLong stored(List<MachineHead> heads) {
        return heads.stream().flatMapToLong(head -> head.tickMicros().stream()).max();
    }
}
