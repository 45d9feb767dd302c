package leat.page;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.live.MachineNow;
import leat.live.StartCurve;
import leat.live.StartNow;
import leat.replay.StoredSpan;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredStartup;

/**
 * The last starts of each machine. They are read when there is a new one, or its run has been
 * judged, and not again. Confined to the thread of the reader.
 */
final class RecentStarts {

    private static final int MOST = 3;
    private static final long BEFORE_MICROS = 1_000_000;
    private static final long AFTER_MICROS = 15_000_000;

    /** A drawing has no room for more. */
    private static final long APART_MICROS = 100_000;

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
            starts.add(new RecentStart(stored, drawn.orElseGet(() -> curve(stored, reader))));
        }
        return List.copyOf(starts);
    }

    private static Optional<StartCurve> curve(StoredStartup stored, List<RecentStart> before) {
        return before.stream()
                .filter(start -> start.stored().number() == stored.number())
                .map(RecentStart::curve)
                .findFirst();
    }

    private static StartCurve curve(StoredStartup stored, StoreReader reader) {
        long started = stored.startup().startedAtMicros();
        List<StartCurve.Point> inlet = new ArrayList<>();
        List<StartCurve.Point> boosted = new ArrayList<>();
        StoredSpan.curve(reader, stored)
                .ifPresent(
                        span ->
                                span.read(
                                        input -> {
                                            if (input instanceof Reading reading) {
                                                add(reading, Channel.INLET, started, inlet);
                                                add(reading, Channel.BOOSTED, started, boosted);
                                            }
                                        }));
        return new StartCurve(started, inlet, boosted);
    }

    private static void add(
            Reading reading, Channel channel, long started, List<StartCurve.Point> points) {
        long at = reading.atMicros();
        boolean isWithin = at >= started - BEFORE_MICROS && at <= started + AFTER_MICROS;
        boolean isApart =
                points.isEmpty() || at - points.get(points.size() - 1).atMicros() >= APART_MICROS;
        if (reading.channel() == channel && reading.quality().isUsable() && isWithin && isApart) {
            points.add(new StartCurve.Point(at, reading.value()));
        }
    }
}
