package leat.screen;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.live.DaemonNow;
import leat.live.GaugeNow;
import leat.live.Live;
import leat.live.MachineNow;
import leat.live.SiteNow;
import leat.live.StoredNow;
import leat.signal.Input;
import leat.store.StoreReader;

/** A site as it was seen second by second. */
final class Lived {

    private static final int SECONDS = 62;

    private Lived() {}

    /** Both machines of the demo, looked at after each second of its first minute. */
    static List<SiteNow> demo(Path folder) throws IOException {
        List<SiteNow> seen = new ArrayList<>();
        try (StoredNow stored = StoredNow.in(folder);
                StoreReader reader = stored.reader()) {
            Live live = Live.over(reader, stored.site());
            List<Input> first = stored.played("demo", "jet-1");
            List<Input> second = stored.played("demo", "jet-2");
            for (int s = 0; s < SECONDS; s++) {
                stored.commit(
                        Map.of(
                                "jet-1", StoredNow.between(first, s, s + 1),
                                "jet-2", StoredNow.between(second, s, s + 1)));
                seen.add(live.now(StoredNow.SIX + (s + 1) * StoredNow.SECOND));
            }
        }
        return seen;
    }

    /** Its last machine so many times more, every second one with a name as long as it may be. */
    static SiteNow crowd(SiteNow site, int machines) {
        List<MachineNow> all = new ArrayList<>(site.machines());
        MachineNow last = all.get(all.size() - 1);
        for (int i = all.size() + 1; i <= machines; i++) {
            all.add(named(last, i % 2 == 0 ? "jet-" + i + "-".repeat(34) : "jet-" + i));
        }
        return new SiteNow(site.atMicros(), site.daemon(), all, site.outages());
    }

    private static MachineNow named(MachineNow machine, String name) {
        return new MachineNow(
                name,
                machine.phase(),
                machine.gauges(),
                machine.readMicros(),
                machine.setPsi(),
                machine.boost(),
                machine.lastStart(),
                machine.climb(),
                machine.alarms(),
                machine.aside(),
                machine.service());
    }

    /** Nothing was stored since, and so many seconds have gone by. */
    static SiteNow stale(SiteNow site, int seconds) {
        return new SiteNow(
                site.atMicros() + seconds * StoredNow.SECOND,
                new DaemonNow(
                        DaemonNow.State.SILENT,
                        site.daemon().run(),
                        OptionalLong.of(site.atMicros())),
                site.machines().stream().map(Lived::silent).toList(),
                site.outages());
    }

    private static MachineNow silent(MachineNow machine) {
        List<GaugeNow> gauges =
                machine.gauges().stream()
                        .map(
                                g ->
                                        new GaugeNow(
                                                g.channel(),
                                                GaugeNow.Showing.SILENT,
                                                g.last(),
                                                "",
                                                g.limits()))
                        .toList();
        return new MachineNow(
                machine.name(),
                machine.phase(),
                gauges,
                machine.readMicros(),
                machine.setPsi(),
                Optional.empty(),
                machine.lastStart(),
                machine.climb(),
                machine.alarms(),
                machine.aside(),
                machine.service());
    }
}
