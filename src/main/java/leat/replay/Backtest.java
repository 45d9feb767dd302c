package leat.replay;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.signal.Input;
import leat.watch.WatchSettings;

/**
 * Which alarms a past would have raised under other limits. One past is fed to two watches at once;
 * nothing that is stored is touched.
 *
 * @param before judged as it is
 * @param after judged by the other limits
 * @param changes every alarm of either, in the order of their raising
 */
public record Backtest(Replayed before, Replayed after, List<Change> changes) {

    /** What became of an alarm. */
    public enum Kind {
        SAME,
        /** Raised at another time, or with another grade. */
        MOVED,
        GONE,
        NEW
    }

    /**
     * One alarm under both limits.
     *
     * @param kind what became of it
     * @param before as it is; empty for a new one
     * @param after as it would be; empty for one that is gone
     */
    public record Change(Kind kind, Optional<AlarmLife> before, Optional<AlarmLife> after) {

        /** The one that exists, as it is rather than as it would be. */
        public AlarmLife either() {
            return before.or(() -> after).orElseThrow();
        }
    }

    public Backtest {
        changes = List.copyOf(changes);
    }

    public static Backtest of(WatchSettings before, WatchSettings after, Past past) {
        Replay first = new Replay(before);
        Replay second = new Replay(after);
        past.read(
                (Input input) -> {
                    first.accept(input);
                    second.accept(input);
                });
        Replayed was = first.end();
        Replayed would = second.end();
        return new Backtest(was, would, compare(was.alarms(), would.alarms()));
    }

    private static List<Change> compare(List<AlarmLife> before, List<AlarmLife> after) {
        List<AlarmLife> unmatched = new ArrayList<>(after);
        List<Change> changes = new ArrayList<>();
        for (AlarmLife was : before) {
            Optional<AlarmLife> would =
                    unmatched.stream().filter(a -> isTheSame(was, a)).findFirst();
            would.ifPresent(unmatched::remove);
            Kind kind =
                    would.map(a -> isUnmoved(was, a) ? Kind.SAME : Kind.MOVED).orElse(Kind.GONE);
            changes.add(new Change(kind, Optional.of(was), would));
        }
        unmatched.forEach(a -> changes.add(new Change(Kind.NEW, Optional.empty(), Optional.of(a))));
        changes.sort((a, b) -> Long.compare(raised(a.either()), raised(b.either())));
        return changes;
    }

    /** The same rule and channel at overlapping times. */
    private static boolean isTheSame(AlarmLife a, AlarmLife b) {
        return a.gravest().rule() == b.gravest().rule()
                && a.gravest().channel() == b.gravest().channel()
                && raised(a) <= over(b)
                && raised(b) <= over(a);
    }

    private static boolean isUnmoved(AlarmLife a, AlarmLife b) {
        return raised(a) == raised(b) && a.grade() == b.grade();
    }

    private static long raised(AlarmLife life) {
        return life.first().raisedAtMicros();
    }

    private static long over(AlarmLife life) {
        return life.returned().map(change -> change.atMicros()).orElse(Long.MAX_VALUE);
    }
}
