package leat.screen;

import static java.util.Objects.requireNonNull;

import java.nio.file.Path;
import java.util.Optional;
import leat.config.Site;
import leat.live.Live;
import leat.live.SiteNow;
import leat.store.StoreReader;

/**
 * A look at a site again and again, also where its store is replaced or cannot be read for a while.
 * Thread-confined.
 */
public final class SiteView implements AutoCloseable {

    /** While nothing is stored the files may be others by now; they are opened anew so often. */
    private static final long ANEW_MICROS = 5_000_000;

    private final Path database;
    private final Site site;
    private Optional<StoreReader> reader = Optional.empty();
    private Optional<Live> live = Optional.empty();
    private long openedMicros;

    /**
     * @param site whose machines are looked at
     */
    public SiteView(Path database, Site site) {
        this.database = requireNonNull(database, "database");
        this.site = requireNonNull(site, "site");
    }

    /**
     * @throws leat.store.StoreException when the store cannot be read now; it may be asked again
     */
    public SiteNow now(long nowMicros) {
        if (live.isEmpty()) {
            reader = Optional.of(StoreReader.open(database));
            live = reader.map(opened -> Live.over(opened, site));
            openedMicros = nowMicros;
        }
        boolean isSeen = false;
        try {
            SiteNow now = live.get().now(nowMicros);
            isSeen = now.daemon().isRunning() || nowMicros - openedMicros < ANEW_MICROS;
            return now;
        } finally {
            if (!isSeen) {
                close();
            }
        }
    }

    @Override
    public void close() {
        live = Optional.empty();
        reader.ifPresent(StoreReader::close);
        reader = Optional.empty();
    }
}
