package leat.cli;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.deliver.Annunciator;
import leat.deliver.Changed;
import leat.deliver.Notification;
import leat.deliver.Occasion;
import leat.replay.Backtest;
import leat.rule.Grade;
import leat.store.Message;
import leat.watch.Outcome;

/**
 * How often a route of today's site would have called somebody. The annunciator that the daemon
 * hosts is fed what happened to the alarms, when the machine ran, and the time by the minute.
 * Acknowledged, shelved and so on is what was so at that time; a call that came only under other
 * limits nobody has answered.
 *
 * @param route name of the route
 * @param before as it is
 * @param after under the other limits
 */
record RouteCalls(String route, Count before, Count after) {

    private static final long MINUTE_MICROS = 60_000_000;

    /**
     * Calls that were told by themselves.
     *
     * @param all of every grade
     * @param warning of them those of grade WARNING
     * @param critical of them those of grade CRITICAL
     */
    record Count(long all, long warning, long critical) {
        static final Count NONE = new Count(0, 0, 0);

        Count and(Grade grade) {
            return new Count(
                    all + 1,
                    warning + (grade == Grade.WARNING ? 1 : 0),
                    critical + (grade == Grade.CRITICAL ? 1 : 0));
        }
    }

    /** A change and when it was heard, which never goes back though the clock may. */
    private record Moment(long atMicros, Occasion occasion) {}

    RouteCalls {
        requireNonNull(route, "route");
        requireNonNull(before, "before");
        requireNonNull(after, "after");
    }

    /** Of each route, in the order of the site. */
    static List<RouteCalls> of(Site site, List<Backtest> backtests) {
        Map<String, Count> before = counts(site, backtests, Backtest.Heard::before);
        Map<String, Count> after = counts(site, backtests, Backtest.Heard::after);
        return site.routes().stream()
                .map(RouteSettings::name)
                .map(
                        route ->
                                new RouteCalls(
                                        route,
                                        before.getOrDefault(route, Count.NONE),
                                        after.getOrDefault(route, Count.NONE)))
                .toList();
    }

    private static Map<String, Count> counts(
            Site site, List<Backtest> backtests, Function<Backtest.Heard, List<Outcome>> which) {
        List<Moment> moments = new ArrayList<>();
        for (Backtest backtest : backtests) {
            long heard = backtest.fromMicros();
            for (Outcome outcome : which.apply(backtest.heard())) {
                heard = Math.max(heard, outcome.atMicros());
                moments.add(new Moment(heard, occasion(backtest.machine(), outcome)));
            }
        }
        moments.sort(Comparator.comparingLong(Moment::atMicros));
        long now = backtests.stream().mapToLong(Backtest::fromMicros).min().orElseThrow();
        long end = backtests.stream().mapToLong(Backtest::toMicros).max().orElseThrow();
        Map<String, Count> counts = new HashMap<>();
        Annunciator annunciator = new Annunciator(site);
        for (Moment moment : moments) {
            now = pass(annunciator, now, moment.atMicros(), counts);
            annunciator.feed(moment.occasion(), message -> count(message, counts));
        }
        pass(annunciator, now, end, counts);
        return counts;
    }

    private static Occasion occasion(String machine, Outcome outcome) {
        return outcome instanceof Outcome.PhaseChanged changed
                ? Occasion.RunChanged.of(machine, changed.change())
                : changed(machine, (Outcome.AlarmChanged) outcome);
    }

    private static Changed changed(String machine, Outcome.AlarmChanged changed) {
        return new Changed(machine, changed.change(), changed.why());
    }

    private static long pass(
            Annunciator annunciator, long fromMicros, long toMicros, Map<String, Count> counts) {
        long now = fromMicros;
        for (; now + MINUTE_MICROS <= toMicros; now += MINUTE_MICROS) {
            annunciator.feed(
                    new Occasion.Passed(now + MINUTE_MICROS), message -> count(message, counts));
        }
        return now;
    }

    private static void count(Notification message, Map<String, Count> counts) {
        if (message.about().kind() == Message.Purpose.CALL && message.foldedInto().isEmpty()) {
            counts.put(
                    message.route(),
                    counts.getOrDefault(message.route(), Count.NONE).and(message.about().grade()));
        }
    }
}
