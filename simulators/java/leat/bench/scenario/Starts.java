package leat.bench.scenario;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * How a machine is used on an ordinary day: so many runs, spread over the shift by chance. Each run
 * begins at a random moment of its own share of the shift and lasts a fifth longer or shorter by
 * chance; both invented. Immutable.
 *
 * @param perDay runs a day, 1 to 200
 * @param run how long one lasts, 20 s or more
 * @param from begin of the shift
 * @param to its end, later on the same day; every run has ended by then
 * @param days on which there is a shift
 */
public record Starts(int perDay, Duration run, LocalTime from, LocalTime to, Set<DayOfWeek> days) {

    private static final int MOST_PER_DAY = 200;
    private static final Duration SHORTEST_RUN = Duration.ofSeconds(20);

    /** Between two runs the line comes to rest, so that a rest can be judged. */
    private static final Duration LEAST_REST = Duration.ofSeconds(90);

    private static final double SCATTER = 0.2;
    private static final int DRAWS_A_DAY = 2 * MOST_PER_DAY;

    /** From the switching on to the switching off. */
    record Run(LocalDateTime on, LocalDateTime off) {}

    public Starts {
        days = Set.copyOf(days);
        if (perDay < 1 || perDay > MOST_PER_DAY) {
            throw new IllegalArgumentException(
                    "per_day is " + perDay + ", allowed is 1 to " + MOST_PER_DAY);
        }
        if (run.compareTo(SHORTEST_RUN) < 0) {
            throw new IllegalArgumentException(
                    "run is " + run.toSeconds() + " s, allowed is 20 s and more");
        }
        if (!to.isAfter(from)) {
            throw new IllegalArgumentException(
                    "the shift ends at " + to + ", before it begins at " + from);
        }
        if (days.isEmpty()) {
            throw new IllegalArgumentException("there is no day in it");
        }
        long share = Duration.between(from, to).toSeconds() / perDay;
        long needed = Math.round(run.toSeconds() * (1 + SCATTER)) + LEAST_REST.toSeconds();
        if (share < needed) {
            throw new IllegalArgumentException(
                    String.format(
                            "%d runs of %d s do not fit between %s and %s: each needs up to %d s"
                                    + " with the rest after it, and has %d s",
                            perDay, run.toSeconds(), from, to, needed, share));
        }
    }

    /** The runs of one day in their order; none on a day without a shift. */
    List<Run> of(LocalDate day, long seed) {
        List<Run> runs = new ArrayList<>();
        if (!days.contains(day.getDayOfWeek())) {
            return runs;
        }
        double share = Duration.between(from, to).toMillis() / 1e3 / perDay;
        for (int i = 0; i < perDay; i++) {
            long number = day.toEpochDay() * DRAWS_A_DAY + 2L * i;
            double scatter = 1 + SCATTER * (2 * Chance.draw(seed, number) - 1);
            double lasts = run.toMillis() / 1e3 * scatter;
            double spare = share - lasts - LEAST_REST.toSeconds();
            double begin = i * share + spare * Chance.draw(seed, number + 1);
            LocalDateTime on = day.atTime(from).plusNanos(Math.round(begin * 1e3) * 1_000_000);
            runs.add(new Run(on, on.plusNanos(Math.round(lasts * 1e3) * 1_000_000)));
        }
        return runs;
    }
}
