package leat.page;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.live.CurveReader;
import leat.live.MachineNow;
import leat.live.StartCurve;
import leat.live.StartNow;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredStartup;

/**
 * The last starts of each machine. They are read when there is a new one, or its run has been
 * judged, and not again. Confined to the thread of the reader.
 */
final class RecentStarts {

    private static final int MOST = 3;

    private final Map<String, List<RecentStart>> known = new HashMap<>();

    /** The latest first. */
    List<RecentStart> of(MachineNow machine, StoreReader reader) {
        Optional<StoredStartup> latest = machine.lastStart().map(StartNow::startup);
        List<RecentStart> before = known.getOrDefault(machine.name(), List.of());
        if (!latest.equals(before.stream().findFirst().map(RecentStart::stored))) {
            known.put(machine.name(), read(machine, before, reader));
        }
        return known.getOrDefault(machine.name(), List.of());
    }

    private static List<RecentStart> read(
            MachineNow machine, List<RecentStart> before, StoreReader reader) {
        List<RecentStart> starts = new ArrayList<>();
        for (StoredStartup stored : reader.startups(StartupQuery.newest(MOST).of(machine.name()))) {
            Optional<StartCurve> drawn =
                    machine.lastStart()
                            .filter(last -> last.startup().number() == stored.number())
                            .map(StartNow::curve)
                            .or(() -> curve(stored, before));
            starts.add(
                    new RecentStart(
                            stored, drawn.orElseGet(() -> CurveReader.curve(reader, stored))));
        }
        return List.copyOf(starts);
    }

    private static Optional<StartCurve> curve(StoredStartup stored, List<RecentStart> before) {
        return before.stream()
                .filter(start -> start.stored().number() == stored.number())
                .map(RecentStart::curve)
                .findFirst();
    }
}
