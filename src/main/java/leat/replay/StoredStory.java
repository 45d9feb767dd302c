package leat.replay;

import java.util.Optional;
import leat.report.Shown;
import leat.report.StartupView;
import leat.rule.Baseline;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.watch.WatchSettings;

/** Gathers from the store what a page about one of its startups shows. */
public final class StoredStory {

    private StoredStory() {}

    /**
     * By a replay of the readings around it.
     *
     * @param site name of the site
     * @param settings the machine and the limits that it was judged by
     * @return empty when its readings are no longer kept
     */
    public static Optional<StartupView> of(
            String site,
            StoreReader reader,
            StoredStartup stored,
            WatchSettings settings,
            Shown shown) {
        return StoredSpan.of(reader, stored)
                .map(
                        past -> {
                            Replayed anew = Replay.of(settings.knowing(past.baseline()), past);
                            Replayed fresh = anew.about(stored);
                            Replayed whole = stored.run().map(fresh::with).orElse(fresh);
                            JudgedStartup told = whole.atEnd().told().orElseThrow();
                            return StartupStory.of(
                                    site,
                                    whole,
                                    past,
                                    told,
                                    Optional.empty(),
                                    typical(past, told, shown),
                                    Optional.of(why(reader, stored)));
                        });
    }

    /** The usual start of its baseline, as a curve to be drawn behind it. */
    public static Optional<StartupView.Overlay> typical(
            StoredSpan past, JudgedStartup judged, Shown shown) {
        return judged.baseline().flatMap(own -> typical(past, own, shown));
    }

    private static Optional<StartupView.Overlay> typical(
            StoredSpan past, Baseline baseline, Shown shown) {
        return past.typical(baseline)
                .flatMap(
                        stored ->
                                overlay(
                                        past.reader(),
                                        stored,
                                        shown.say(
                                                "page.middle",
                                                label(stored, shown),
                                                Integer.toString(baseline.count()))));
    }

    /**
     * A startup to be laid over another one; empty when its readings are no longer kept.
     *
     * @param label what it is called
     */
    public static Optional<StartupView.Overlay> overlay(
            StoreReader reader, StoredStartup stored, String label) {
        return StoredSpan.of(reader, stored)
                .map(past -> StartupStory.overlay(label, past, stored.startup()));
    }

    /** Its number and when it began. */
    public static String label(StoredStartup stored, Shown shown) {
        return shown.say(
                "screen.start", stored.name(), shown.time(stored.startup().startedAtMicros()));
    }

    /** Why it was so, by all that the store holds. */
    public static StoredWhy why(StoreReader reader, StoredStartup stored) {
        return new StoredWhy(
                stored.startup().startedAtMicros(),
                PastDiagnosis.of(reader, WhyAbout.start(stored)).why(),
                stored.name());
    }
}
