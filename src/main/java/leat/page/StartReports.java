package leat.page;

import static java.util.Objects.requireNonNull;

import java.util.EnumSet;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import java.util.function.Supplier;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.replay.StoredStory;
import leat.report.Shown;
import leat.report.StartupPage;
import leat.store.StoreException;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.watch.WatchSettings;

/**
 * The report of a start, as {@code leat replay --report} writes it. It takes a replay, so that one
 * is made at a time. Thread-safe.
 */
final class StartReports {

    private static final String STYLE_BEGINS = "<style>";
    private static final String STYLE_ENDS = "</style>";

    private final Site site;
    private final Shown shown;
    private final Supplier<StoreReader> store;
    private final Semaphore places = new Semaphore(1);

    /**
     * @param store opens a reader, which is closed after each report
     */
    StartReports(Site site, Shown shown, Supplier<StoreReader> store) {
        this.site = requireNonNull(site, "site");
        this.shown = requireNonNull(shown, "shown");
        this.store = requireNonNull(store, "store");
    }

    Answer of(Paths.Start start) {
        if (!places.tryAcquire()) {
            return Answer.plain(503, shown.say("status.busy")).with("Retry-After", "2");
        }
        try (StoreReader reader = store.get()) {
            Optional<StoredStartup> stored = reader.startup(start.machine(), start.number());
            if (stored.isEmpty()) {
                return Answer.plain(404, shown.say("status.no-such-start"));
            }
            return settings(reader, stored.get())
                    .flatMap(s -> StoredStory.of(site.name(), reader, stored.get(), s, shown))
                    .map(view -> page(StartupPage.of(view, shown)))
                    .orElseGet(() -> Answer.plain(410, shown.say("screen.no-curve")));
        } catch (StoreException e) {
            return Answer.plain(503, e.getMessage()).with("Retry-After", "10");
        } finally {
            places.release();
        }
    }

    /** As it was judged then, else by what holds now. */
    private Optional<WatchSettings> settings(StoreReader reader, StoredStartup stored) {
        return reader.configText(stored.configHash())
                .flatMap(text -> SiteFile.archived(text).site())
                .flatMap(then -> then.machine(stored.machine()))
                .or(() -> site.machine(stored.machine()))
                .map(StartReports::settings);
    }

    private static WatchSettings settings(MachineSettings machine) {
        return new WatchSettings(
                machine.name(), EnumSet.copyOf(machine.byChannel().keySet()), machine.limits());
    }

    private static Answer page(String document) {
        int begin = document.indexOf(STYLE_BEGINS) + STYLE_BEGINS.length();
        String style = document.substring(begin, document.indexOf(STYLE_ENDS, begin));
        return Answer.html(200, document, Policy.styled(style));
    }
}
