package leat.replay;

import java.util.List;
import java.util.function.Consumer;
import leat.rule.Limit;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.SourceLost;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/**
 * Feeds a fresh watch, the same that the daemon hosts, and keeps what it says. At the end both
 * pressures are lost, so that what is open is closed. Thread-confined.
 */
public final class Replay implements Consumer<Input> {

    static final String END = "end of the recording";

    private final WatchSettings settings;
    private final Watch watch;
    private final Tally tally;
    private final Heard heard;
    private final Consumer<Outcome> outcomes;

    public Replay(WatchSettings settings) {
        this.settings = settings;
        watch = new Watch(settings);
        heard = new Heard(settings.baseline());
        outcomes = heard;
        tally = new Tally(settings.limits().micros(Limit.SIGNAL_BLIND));
    }

    /** The account of a whole past. */
    public static Replayed of(WatchSettings settings, Past past) {
        Replay replay = new Replay(settings);
        past.read(replay);
        return replay.end();
    }

    @Override
    public void accept(Input input) {
        tally.take(input);
        watch.feed(input, outcomes);
        heard.fed(input);
    }

    /** Ends the past and tells what was said of it; nothing may be fed afterwards. */
    public Replayed end() {
        if (!tally.isEmpty()) {
            for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
                watch.feed(new SourceLost(channel, tally.toMicros(), END), outcomes);
            }
        }
        return heard.told(settings, tally, watch.glance(), watch.runSoFar());
    }
}
