package leat.day;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.regex.Pattern;
import leat.deliver.CourierHealth;
import leat.service.SpedUpDaemon;

/**
 * Every trouble of every part, by day one of each, one after the other over the day; between two of
 * them all are well for a while, once the last one has caught up. Thread-confined.
 */
final class Plan {

    private static final Duration WARM_UP = Duration.ofMinutes(20);
    private static final Duration WARM_UP_REAL = Duration.ofSeconds(2);
    private static final Duration TROUBLE = Duration.ofMinutes(42);
    private static final Duration LEAST_CALM = Duration.ofMinutes(5);

    /** In which nothing new happens. */
    private static final Duration EVENING = Duration.ofMinutes(15);

    private static final Duration CALM_HOUR_REAL = Duration.ofMillis(800);
    private static final Duration SLOW_STEP = Duration.ofSeconds(4);
    private static final Duration SLOW_STEP_REAL = Duration.ofMillis(30);
    private static final Duration LONGEST_WAIT_REAL = Duration.ofSeconds(30);

    private final SpedUpDaemon leat;
    private final Day day;
    private final Commits commits;
    private final Books books;

    private record Turn(Part part, Spell spell) {}

    Plan(SpedUpDaemon leat, Day day, Commits commits, Books books) {
        this.leat = leat;
        this.day = day;
        this.commits = commits;
        this.books = books;
    }

    /** Until the end of the day. */
    List<Bout> carryOut(List<Part> parts) throws Exception {
        day.pass(WARM_UP, WARM_UP_REAL);
        for (Part part : parts) {
            catchUp(part);
        }
        List<Turn> turns = every(parts);
        List<Bout> bouts = new ArrayList<>();
        while (!turns.isEmpty()) {
            commits.during(Hour.CALM);
            calm(calm(turns.size()));
            bouts.add(suffer(turns.remove(0)));
        }
        commits.during(Hour.CALM);
        calm(left());
        for (Part part : parts) {
            catchUp(part);
        }
        return bouts;
    }

    /** In rounds: each part in turn, with its next trouble. */
    private static List<Turn> every(List<Part> parts) {
        List<Turn> turns = new ArrayList<>();
        int most = parts.stream().mapToInt(part -> part.spells().size()).max().orElseThrow();
        for (int round = 0; round < most; round++) {
            for (Part part : parts) {
                if (round < part.spells().size()) {
                    turns.add(new Turn(part, part.spells().get(round)));
                }
            }
        }
        return turns;
    }

    private Duration left() {
        return Duration.ofNanos((day.endMicros() - leat.nowMicros()) * 1_000);
    }

    /** What is left of the day, shared out among the troubles that are left. */
    private Duration calm(int turnsLeft) {
        Duration calm = left().minus(EVENING).dividedBy(turnsLeft).minus(TROUBLE);
        return calm.compareTo(LEAST_CALM) < 0 ? LEAST_CALM : calm;
    }

    private void calm(Duration event) {
        day.pass(event, CALM_HOUR_REAL.multipliedBy(event.toSeconds()).dividedBy(3_600));
    }

    private Bout suffer(Turn turn) throws Exception {
        Part part = turn.part();
        Ailment trouble = turn.spell().trouble();
        Duration half = turn.spell().atLeast().dividedBy(2);
        long failed = health(part).failed();
        long from = RealTime.nowMicros();
        commits.during(Hour.of(part.route(), trouble));
        part.begin(trouble);
        long begun = RealTime.nowMicros();
        day.pass(TROUBLE.dividedBy(2), half);
        List<String> unsaid = new ArrayList<>();
        awaitWords(part, turn.spell().firstWords()).ifPresent(unsaid::add);
        part.turn(trouble);
        day.pass(TROUBLE.dividedBy(2), half);
        awaitWords(part, turn.spell().secondWords()).ifPresent(unsaid::add);
        long ended = RealTime.nowMicros();
        long endedEvent = leat.nowMicros();
        part.end(trouble);
        catchUp(part);
        return new Bout(
                part.route(),
                trouble,
                from,
                begun,
                ended,
                endedEvent,
                RealTime.nowMicros(),
                health(part).failed() - failed,
                unsaid);
    }

    private CourierHealth health(Part part) {
        return leat.route(part.route());
    }

    /** Empty once the route has said so of itself; else what it says. */
    private Optional<String> awaitWords(Part part, Pattern words) {
        passSlowlyUntil(() -> words.matcher(health(part).lastReason()).find());
        String said = health(part).lastReason();
        return words.matcher(said).find()
                ? Optional.empty()
                : Optional.of("\"" + words + "\" is not in: " + said);
    }

    private void catchUp(Part part) {
        passSlowlyUntil(() -> books.isDone(part.route()));
    }

    /** Slowly, so that the day does not run away. */
    private void passSlowlyUntil(BooleanSupplier isSo) {
        long latest = System.nanoTime() + LONGEST_WAIT_REAL.toNanos();
        while (!isSo.getAsBoolean() && System.nanoTime() < latest) {
            day.pass(SLOW_STEP, SLOW_STEP_REAL);
        }
    }
}
