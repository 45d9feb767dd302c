package leat.live;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.replay.Played;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreReader;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/**
 * A store that grows as the daemon lets it: second by second, with what the watches say. Confined
 * to the test's thread.
 */
public final class StoredNow implements AutoCloseable {

    /** 2026-01-05T06:00:00Z. */
    public static final long SIX = 1_767_592_800_000_000L;

    public static final long SECOND = 1_000_000;

    private final Site site;
    private final Store store;
    private final Map<String, Watch> watches = new HashMap<>();
    private final Map<String, Long> fed = new HashMap<>();

    private StoredNow(Site site) {
        this.site = site;
        store = Store.open(site.store().file());
    }

    /** A boatyard on which leat was started at six; both machines have two pressures wired. */
    public static StoredNow in(Path folder) throws IOException {
        return saying(folder, Files.readString(Path.of("config/boatyard-modbus.yaml")));
    }

    /** Likewise, with so many machines. */
    public static StoredNow of(Path folder, int machines) throws IOException {
        String yaml = Files.readString(Path.of("config/boatyard-modbus.yaml"));
        int jet = yaml.indexOf("  jet-2:");
        int routes = yaml.indexOf("tell:");
        StringBuilder all = new StringBuilder(yaml.substring(0, jet));
        for (int i = 2; i <= machines; i++) {
            all.append(yaml.substring(jet, routes).replace("jet-2:", "jet-" + i + ":"));
        }
        return saying(folder, all.append(yaml.substring(routes)).toString());
    }

    /** Likewise, where the first machine has a gauge after its filters too. */
    static StoredNow filtered(Path folder) throws IOException {
        String yaml = Files.readString(Path.of("config/boatyard-modbus.yaml"));
        int boosted = yaml.indexOf("      boosted:");
        int next = yaml.indexOf("      # Two contacts");
        String gauge =
                yaml.substring(boosted, next)
                        .replace("boosted:", "filtered:")
                        .replace("address: 1", "address: 7");
        return saying(folder, yaml.substring(0, next) + gauge + yaml.substring(next));
    }

    private static StoredNow saying(Path folder, String yaml) throws IOException {
        Path file = folder.resolve("site.yaml");
        Files.writeString(file, yaml);
        StoredNow now = new StoredNow(load(file));
        now.store.startRun("test", now.site.hash(), now.site.text(), SIX);
        return now;
    }

    private static Site load(Path file) {
        return SiteFile.load(file, name -> Optional.empty()).site().orElseThrow();
    }

    public Site site() {
        return site;
    }

    public StoreReader reader() {
        return StoreReader.open(site.store().file());
    }

    /** The daemon comes to its orderly end. */
    void end(long atMicros) {
        store.endRun(atMicros);
    }

    /** What the machine's line does in a bench scenario, as its wired channels read it. */
    public List<Input> played(String scenario, String machine) {
        Set<Channel> wired = settings(machine).byChannel().keySet();
        return Played.of(scenario, machine).inputs(SIX).stream()
                .filter(i -> !(i instanceof Reading r) || wired.contains(r.channel()))
                .toList();
    }

    private MachineSettings settings(String machine) {
        return site.machine(machine).orElseThrow();
    }

    /** One commit with these inputs and what was said to them. */
    public void commit(String machine, List<Input> inputs) {
        commit(Map.of(machine, inputs));
    }

    /** Likewise of several machines. */
    public void commit(Map<String, List<Input>> inputs) {
        Batch batch = new Batch();
        inputs.forEach((machine, own) -> feed(machine, own, batch));
        store.commit(batch);
    }

    private void feed(String machine, List<Input> inputs, Batch batch) {
        Watch watch = watches.computeIfAbsent(machine, this::watch);
        for (Input input : inputs) {
            long seq = fed.merge(machine, 1L, Long::sum);
            batch.fed(machine, seq, input);
            watch.feed(input, outcome -> batch.said(machine, seq, outcome, site.hash()));
        }
    }

    private Watch watch(String machine) {
        return new Watch(
                new WatchSettings(
                        machine,
                        new HashSet<>(settings(machine).byChannel().keySet()),
                        settings(machine).limits()));
    }

    /** The inputs from one second on and before another, both after six. */
    public static List<Input> between(List<Input> inputs, double from, double to) {
        List<Input> part = new ArrayList<>(inputs);
        part.removeIf(
                input ->
                        input.atMicros() < SIX + (long) (from * SECOND)
                                || input.atMicros() >= SIX + (long) (to * SECOND));
        return part;
    }

    @Override
    public void close() {
        store.close();
    }
}
