package leat.replay;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.measure.Startup;
import leat.report.StartupView;
import leat.report.Trace;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;

/** Gathers from a past what a page about one of its startups shows. */
public final class StartupStory {

    private static final long BEFORE_MICROS = 3_000_000;
    private static final long AFTER_MICROS = 5_000_000;

    private StartupStory() {}

    /**
     * @param site name of the site
     * @param replayed what a watch said of the past
     * @param past read once more, for the two curves
     * @param judged one of the startups of {@code replayed}
     * @param other a startup to lay over it
     * @param typical the usual start of the baseline, to be drawn behind it
     */
    public static StartupView of(
            String site,
            Replayed replayed,
            Past past,
            JudgedStartup judged,
            Optional<StartupView.Overlay> other,
            Optional<StartupView.Overlay> typical) {
        return new StartupView(
                site,
                replayed.settings().machine(),
                judged.startup(),
                judged.verdict(),
                replayed.settings().limits(),
                trace(past, judged.startup(), Channel.INLET),
                trace(past, judged.startup(), Channel.BOOSTED),
                fired(replayed),
                other,
                judged.baseline(),
                typical,
                judged.run());
    }

    /** A startup to be laid over another one. */
    public static StartupView.Overlay overlay(String label, Past past, Startup startup) {
        return new StartupView.Overlay(label, startup, trace(past, startup, Channel.BOOSTED));
    }

    private static List<AlarmChange> fired(Replayed replayed) {
        return replayed.alarms().stream().flatMap(life -> life.changes().stream()).toList();
    }

    private static Trace trace(Past past, Startup startup, Channel channel) {
        long from = startup.startedAtMicros() - BEFORE_MICROS;
        long to = startup.measuredAtMicros() + AFTER_MICROS;
        Trace.Builder trace = new Trace.Builder();
        past.read(input -> add(input, channel, from, to, startup.startedAtMicros(), trace));
        return trace.build();
    }

    private static void add(
            Input input, Channel channel, long from, long to, long zero, Trace.Builder trace) {
        if (input instanceof Reading reading
                && reading.channel() == channel
                && reading.quality().isUsable()
                && reading.atMicros() >= from
                && reading.atMicros() <= to) {
            trace.add((reading.atMicros() - zero) / 1e6, reading.value());
        }
    }
}
