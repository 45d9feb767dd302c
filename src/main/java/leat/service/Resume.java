package leat.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.signal.Input;
import leat.store.Run;
import leat.store.Snapshot;
import leat.store.StoreReader;
import leat.watch.Watch;
import leat.watch.WatchSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Takes every watch up where the last run left it: the newest snapshot, then the inputs that were
 * stored after it, judged as they were judged then. What comes of them was said and stored before,
 * and is not said again.
 */
final class Resume {

    private static final Logger LOG = LoggerFactory.getLogger(Resume.class);

    private final StoreReader reader;
    private final Site site;
    private final Function<String, Optional<Site>> archive;

    /**
     * @param archive reads the text of an earlier configuration; empty when it can no longer be
     *     read
     */
    Resume(StoreReader reader, Site site, Function<String, Optional<Site>> archive) {
        this.reader = reader;
        this.site = site;
        this.archive = archive;
    }

    List<Watched> machines() {
        Site before = before();
        List<Watched> machines = new ArrayList<>();
        for (MachineSettings machine : site.machines()) {
            WatchSettings then =
                    Watched.watchSettings(before.machine(machine.name()).orElse(machine));
            long seq = reader.lastSeq(machine.name());
            Optional<Watch> resumed = watch(machine, then, seq);
            machines.add(
                    new Watched(
                            machine,
                            resumed.orElseGet(() -> afresh(machine, seq)),
                            seq,
                            resumed.isEmpty()));
        }
        return machines;
    }

    /** Of its past it knows what is usual for the machine: that was stored for itself. */
    private Watch afresh(MachineSettings machine, long seq) {
        return new Watch(
                Watched.watchSettings(machine).knowing(reader.baselineAfter(machine.name(), seq)));
    }

    /** The configuration of the last run, under which its inputs were judged. */
    private Site before() {
        List<Run> runs = reader.runs(1);
        if (runs.isEmpty() || runs.get(0).configHash().equals(site.hash())) {
            return site;
        }
        return reader.configText(runs.get(0).configHash()).flatMap(archive).orElse(site);
    }

    /** Empty when the machine's past cannot be taken up: then it is judged afresh. */
    private Optional<Watch> watch(MachineSettings machine, WatchSettings then, long last) {
        WatchSettings now = Watched.watchSettings(machine);
        List<Snapshot> snapshots = reader.snapshots(machine.name());
        if (snapshots.isEmpty() && last > 0 && !beginsWithTheFirstInput(machine.name())) {
            LOG.warn(
                    "{}: the state of the last run is not stored, the machine is judged afresh with"
                            + " the baseline that is stored",
                    machine.name());
            return Optional.empty();
        }
        try {
            Watch watch = new Watch(then);
            long seq = 0;
            if (!snapshots.isEmpty()) {
                watch = Watch.restore(then, snapshots.get(0).state());
                seq = snapshots.get(0).seq();
                say(machine, watch.passedOver());
            }
            Watch resumed = watch;
            reader.inputs(
                    machine.name(),
                    seq,
                    Long.MAX_VALUE,
                    (number, input) -> resumed.feed(input, outcome -> {}));
            return Optional.of(then.equals(now) ? resumed : Watch.restore(now, resumed.snapshot()));
        } catch (IllegalArgumentException e) {
            LOG.warn(
                    "{}: the state of the last run cannot be taken up, the machine is judged afresh"
                            + " with the baseline that is stored: {}",
                    machine.name(),
                    e.getMessage());
            return Optional.empty();
        }
    }

    /** Not so after a kill right after a lost file was begun anew: its inputs are not carried. */
    private boolean beginsWithTheFirstInput(String machine) {
        List<Input> first = new ArrayList<>();
        reader.inputs(machine, 0, 1, (number, input) -> first.add(input));
        return !first.isEmpty();
    }

    private static void say(MachineSettings machine, int passedOver) {
        if (passedOver > 0) {
            LOG.warn(
                    "{}: fields of the last run's state unknown to this version: {}",
                    machine.name(),
                    passedOver);
        }
    }
}
