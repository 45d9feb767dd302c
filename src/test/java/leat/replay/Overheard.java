package leat.replay;

import java.util.List;
import leat.rule.Limit;
import leat.signal.Input;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/** For tests: puts what was fed and said live into the form of a replay, without replaying. */
public final class Overheard {

    private final WatchSettings settings;
    private final Tally tally;
    private final Heard heard;

    public Overheard(WatchSettings settings) {
        this.settings = settings;
        heard = new Heard(settings.baseline());
        tally = new Tally(settings.limits().micros(Limit.SIGNAL_BLIND));
    }

    /**
     * @param said what was said of it
     */
    public void fed(Input input, List<Outcome> said) {
        tally.take(input);
        said.forEach(heard);
        heard.fed(input);
    }

    /**
     * @param end how the live watch stood at the end
     */
    public Replayed end(Watch end) {
        return heard.told(settings, tally, end.glance(), end.runSoFar());
    }
}
