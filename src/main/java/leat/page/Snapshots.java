package leat.page;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import leat.config.Site;
import leat.live.Live;
import leat.live.SiteNow;
import leat.store.StoreException;
import leat.store.StoreReader;

/**
 * Makes one snapshot a second for all who look, from a reader of its own, and none while nobody
 * does. Confined to the thread of its worker.
 */
final class Snapshots {

    private static final Duration EACH = Duration.ofSeconds(1);

    /** Nobody looks; whoever begins to waits no longer than this for the next look. */
    private static final Duration UNTIL_ASKED = Duration.ofMillis(100);

    private final Site site;
    private final Supplier<StoreReader> store;
    private final Supplier<Workings> workings;
    private final Supplier<Metrics.Callers> callers;
    private final LongSupplier nowMicros;
    private final String version;
    private final Board board;
    private final Latest latest;
    private final RouteSigns signs = new RouteSigns();
    private Optional<Eyes> eyes = Optional.empty();

    /** What looks into a store: other ones for another file. */
    private record Eyes(StoreReader reader, Live live, RecentStarts starts) {}

    /**
     * @param store the reader to be asked now
     */
    Snapshots(
            Site site,
            Supplier<StoreReader> store,
            Supplier<Workings> workings,
            Supplier<Metrics.Callers> callers,
            LongSupplier nowMicros,
            String version,
            Board board,
            Latest latest) {
        this.site = requireNonNull(site, "site");
        this.store = requireNonNull(store, "store");
        this.workings = requireNonNull(workings, "workings");
        this.callers = requireNonNull(callers, "callers");
        this.nowMicros = requireNonNull(nowMicros, "nowMicros");
        this.version = requireNonNull(version, "version");
        this.board = requireNonNull(board, "board");
        this.latest = requireNonNull(latest, "latest");
    }

    /** A step of the worker. */
    Duration step() {
        if (latest.hasAny() && !latest.isWanted()) {
            return UNTIL_ASKED;
        }
        long begun = System.nanoTime();
        latest.put(look());
        return EACH.minusNanos(System.nanoTime() - begun);
    }

    private Snapshot look() {
        long now = nowMicros.getAsLong();
        try {
            Eyes open = open(store.get());
            SiteNow seen = open.live().now(now);
            return snapshot(seen(Optional.of(seen), "", now), Optional.of(open));
        } catch (StoreException e) {
            eyes = Optional.empty();
            return snapshot(seen(Optional.empty(), e.getMessage(), now), Optional.empty());
        }
    }

    private Eyes open(StoreReader reader) {
        if (eyes.filter(open -> open.reader() == reader).isEmpty()) {
            eyes = Optional.of(new Eyes(reader, Live.over(reader, site), new RecentStarts()));
        }
        return eyes.get();
    }

    private Seen seen(Optional<SiteNow> now, String unread, long atMicros) {
        Workings going = workings.get();
        return new Seen(now, unread, going, signs.look(going.routes()), atMicros);
    }

    private Snapshot snapshot(Seen seen, Optional<Eyes> open) {
        Board.Made made =
                board.of(
                        seen,
                        machine ->
                                open.map(each -> each.starts().of(machine, each.reader()))
                                        .orElse(java.util.List.of()));
        return new Snapshot(
                made.parts(),
                made.whole(),
                program(Answer.JSON, PageHealth.json(seen) + "\n"),
                program(OpenMetrics.TYPE, Metrics.of(seen, version, callers.get())));
    }

    private static Answer program(String type, String text) {
        return new Answer(200, type, text.getBytes(UTF_8), Policy.NOTHING, Map.of());
    }
}
