package leat.replay;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.measure.Startup;
import leat.report.StartupView;

/** Gathers from a past what a page about one of its startups shows. */
public final class StartupStory {

    private StartupStory() {}

    /**
     * @param site name of the site
     * @param replayed what a watch said of the past
     * @param past read once more, for the curves
     * @param judged one of the startups of {@code replayed}
     * @param other a startup to lay over it
     * @param typical the usual start of the baseline, to be drawn behind it
     * @param stored why it is so by what the store holds; empty of a recording
     */
    public static StartupView of(
            String site,
            Replayed replayed,
            Past past,
            JudgedStartup judged,
            Optional<StartupView.Overlay> other,
            Optional<StartupView.Overlay> typical,
            Optional<StoredWhy> stored) {
        StartCurves curves = StartCurves.of(past, judged.startup());
        Optional<StoredWhy> known = stored.filter(each -> each.isOf(judged.startup()));
        return new StartupView(
                site,
                replayed.settings().machine(),
                judged.startup(),
                judged.verdict(),
                replayed.settings().limits(),
                curves.inlet(),
                curves.boosted(),
                fired(replayed),
                other,
                judged.baseline(),
                typical,
                judged.run(),
                known.map(StoredWhy::why).or(() -> Optional.of(replayed.why(judged))),
                known.map(StoredWhy::answering));
    }

    /** A startup to be laid over another one. */
    public static StartupView.Overlay overlay(String label, Past past, Startup startup) {
        return new StartupView.Overlay(label, startup, StartCurves.of(past, startup).boosted());
    }

    private static List<AlarmChange> fired(Replayed replayed) {
        return replayed.alarms().stream().flatMap(life -> life.changes().stream()).toList();
    }
}
