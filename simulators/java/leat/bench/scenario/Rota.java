package leat.bench.scenario;

import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;

/** The switchings of a machine's days, one after the other; plans one day at a time. */
final class Rota {

    /** One switching, so long after the scenario began. */
    private record Switching(long micros, Event.Action action) {}

    private final Optional<Starts> starts;
    private final long seed;
    private final LocalDateTime zero;
    private final Deque<Switching> planned = new ArrayDeque<>();
    private LocalDate nextDay;

    /**
     * A rota that has not begun.
     *
     * @param zero time of day at which the scenario begins; a run that should be on then is left
     *     out
     */
    Rota(Optional<Starts> starts, long seed, LocalDateTime zero) {
        this.starts = starts;
        this.seed = seed;
        this.zero = zero;
        nextDay = zero.toLocalDate();
        plan();
    }

    /** A set of days is never empty, so that a week has a run at the latest. */
    private void plan() {
        while (starts.isPresent() && planned.isEmpty()) {
            for (Starts.Run run : starts.get().of(nextDay, seed)) {
                if (!run.on().isBefore(zero)) {
                    planned.add(new Switching(micros(run.on()), new Event.Start()));
                    planned.add(new Switching(micros(run.off()), new Event.Stop()));
                }
            }
            nextDay = nextDay.plusDays(1);
        }
    }

    private long micros(LocalDateTime at) {
        return Duration.between(zero, at).toNanos() / 1_000;
    }

    /** When the next switching comes, microseconds; never where nothing is planned. */
    long nextMicros() {
        return planned.isEmpty() ? Long.MAX_VALUE : planned.getFirst().micros();
    }

    /** Takes the next switching. */
    Event.Action take() {
        Event.Action action = planned.removeFirst().action();
        plan();
        return action;
    }
}
