package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Tick;
import leat.watch.Outcome;
import leat.watch.WatchSettings;

/**
 * Which alarms a past would have raised under other limits. One past is fed to two fresh watches at
 * once; nothing that is stored is touched. Memory grows with the number of calls only.
 *
 * @param machine name of the machine
 * @param fromMicros time of the first input, microseconds UTC
 * @param toMicros time of the last input
 * @param watchedSeconds how much of that time leat saw: one for each tick
 * @param changes every call of either, in the order of raising
 * @param heard everything that happened to the alarms of either, and when it ran
 * @param runs starts and runs of either
 */
public record Backtest(
        String machine,
        long fromMicros,
        long toMicros,
        long watchedSeconds,
        List<Change> changes,
        Heard heard,
        Runs runs) {

    /**
     * What happened to alarms, and when the machine ran, in its order.
     *
     * @param before as it is
     * @param after as it would be
     */
    public record Heard(List<Outcome> before, List<Outcome> after) {
        public Heard {
            before = List.copyOf(before);
            after = List.copyOf(after);
        }
    }

    /**
     * Starts and runs.
     *
     * @param before as it is
     * @param after as it would be
     */
    public record Runs(RunCount before, RunCount after) {
        public Runs {
            requireNonNull(before, "before");
            requireNonNull(after, "after");
        }
    }

    /** What became of a call. */
    public enum Effect {
        SAME,
        /** Raised at another time, or with another grade. */
        MOVED,
        GONE,
        NEW
    }

    /**
     * One call under both limits.
     *
     * @param kind what became of it
     * @param before as it is; empty for a new one
     * @param after as it would be; empty for one that is gone
     */
    public record Change(Effect kind, Optional<AlarmCall> before, Optional<AlarmCall> after) {

        public Change {
            requireNonNull(kind, "kind");
            if (before.isEmpty() && after.isEmpty()) {
                throw new IllegalArgumentException("a change of nothing");
            }
        }

        /** The one that exists, as it is rather than as it would be. */
        public AlarmCall either() {
            return before.or(() -> after).orElseThrow();
        }
    }

    /**
     * A part of the past in which the same channels are wired.
     *
     * @param before judged as it is
     * @param after judged by the other limits; the same machine
     * @param past what the two are fed
     */
    public record Stretch(WatchSettings before, WatchSettings after, Past past) {

        public Stretch {
            requireNonNull(past, "past");
            if (!before.machine().equals(after.machine())) {
                throw new IllegalArgumentException(before.machine() + ", " + after.machine());
            }
        }
    }

    public Backtest {
        requireNonNull(machine, "machine");
        changes = List.copyOf(changes);
        requireNonNull(heard, "heard");
        requireNonNull(runs, "runs");
    }

    public static Backtest of(WatchSettings before, WatchSettings after, Past past) {
        return of(List.of(new Stretch(before, after, past)));
    }

    /**
     * Judges one stretch after the other, each with a watch of its own.
     *
     * @param stretches at least one, of one machine, in their order
     */
    public static Backtest of(List<Stretch> stretches) {
        Clock clock = new Clock();
        List<AlarmCall> before = new ArrayList<>();
        List<AlarmCall> after = new ArrayList<>();
        List<Outcome> heardBefore = new ArrayList<>();
        List<Outcome> heardAfter = new ArrayList<>();
        RunCount runsBefore = RunCount.NONE;
        RunCount runsAfter = RunCount.NONE;
        for (Stretch stretch : stretches) {
            Calls was = new Calls(stretch.before(), clock.inputs);
            Calls would = new Calls(stretch.after(), clock.inputs);
            stretch.past()
                    .read(
                            input -> {
                                clock.take(input);
                                was.accept(input);
                                would.accept(input);
                            });
            heardBefore.addAll(was.heard());
            heardAfter.addAll(would.heard());
            before.addAll(was.end(clock.toMicros));
            after.addAll(would.end(clock.toMicros));
            runsBefore = runsBefore.plus(was.runs());
            runsAfter = runsAfter.plus(would.runs());
        }
        return new Backtest(
                stretches.get(0).before().machine(),
                clock.fromMicros,
                clock.toMicros,
                clock.ticks,
                compare(before, after),
                new Heard(heardBefore, heardAfter),
                new Runs(runsBefore, runsAfter));
    }

    /** Calls as it is. */
    public long callsBefore() {
        return changes.stream().filter(c -> c.before().isPresent()).count();
    }

    /** Calls under the other limits. */
    public long callsAfter() {
        return changes.stream().filter(c -> c.after().isPresent()).count();
    }

    /** What an alarm is about; at most one of each stands at a time. */
    private record Key(Rule rule, Channel channel) {

        static Key of(AlarmCall call) {
            return new Key(call.gravest().rule(), call.gravest().channel());
        }
    }

    /** A call is the same alarm as one of the same rule and channel that stood when it stood. */
    private static List<Change> compare(List<AlarmCall> before, List<AlarmCall> after) {
        Map<Key, Deque<AlarmCall>> would = new LinkedHashMap<>();
        after.forEach(a -> would.computeIfAbsent(Key.of(a), k -> new ArrayDeque<>()).add(a));
        List<Change> changes = new ArrayList<>();
        for (AlarmCall was : before) {
            Deque<AlarmCall> next = would.getOrDefault(Key.of(was), new ArrayDeque<>());
            while (!next.isEmpty() && next.peek().toInput() < was.fromInput()) {
                changes.add(came(next.remove()));
            }
            if (!next.isEmpty() && next.peek().overlaps(was)) {
                AlarmCall same = next.remove();
                Effect kind = isUnmoved(was, same) ? Effect.SAME : Effect.MOVED;
                changes.add(new Change(kind, Optional.of(was), Optional.of(same)));
            } else {
                changes.add(new Change(Effect.GONE, Optional.of(was), Optional.empty()));
            }
        }
        would.values().forEach(rest -> rest.forEach(call -> changes.add(came(call))));
        changes.sort(Comparator.comparingLong(change -> change.either().fromInput()));
        return changes;
    }

    private static Change came(AlarmCall call) {
        return new Change(Effect.NEW, Optional.empty(), Optional.of(call));
    }

    private static boolean isUnmoved(AlarmCall a, AlarmCall b) {
        return a.raisedAtMicros() == b.raisedAtMicros() && a.grade() == b.grade();
    }

    /** How far the past has been read. */
    private static final class Clock {

        private long inputs;
        private long ticks;
        private long fromMicros;
        private long toMicros;

        void take(Input input) {
            toMicros = input.atMicros();
            if (inputs++ == 0) {
                fromMicros = toMicros;
            }
            if (input instanceof Tick) {
                ticks++;
            }
        }
    }
}
