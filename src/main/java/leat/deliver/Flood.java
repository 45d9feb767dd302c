package leat.deliver;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.rule.Grade;
import leat.store.Message;
import leat.wire.State;

/**
 * Counts what each route gets of each machine in each ten minutes of the clock, and folds what is
 * too much. ISA-18.2 / IEC 62682 call more than 10 alarms in a 10-minute interval a flood (at
 * second hand); fixed intervals, as they count. Calls about what nobody has acknowledged take only
 * the places that changes have left: what is new is never folded because of what is told again.
 * Thread-confined.
 */
final class Flood {

    private static final long WINDOW_MICROS = 600_000_000;
    private static final long MICROS_PER_SECOND = 1_000_000;
    private static final DateTimeFormatter BEGIN =
            DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'", Locale.ROOT)
                    .withZone(ZoneOffset.UTC);

    /** What a route gets of a machine in one interval, counted from 1970 on. */
    private record Stream(String route, String machine, long window) {
        static Stream of(Notification message) {
            return new Stream(
                    message.route(),
                    message.about().machine(),
                    Math.floorDiv(message.atMicros(), WINDOW_MICROS));
        }

        /** Routes and machines have names without a space. */
        String name() {
            return route + " " + machine;
        }
    }

    /**
     * What has come so far.
     *
     * @param changes messages that tell of a change of an alarm
     * @param calledAgain those that tell again what nobody has acknowledged
     * @param id of the message that is to stand for what is too much; empty while nothing is
     * @param folded what is too much, in its order
     */
    private record Count(
            Stream of, int changes, int calledAgain, String id, List<More.Part> folded) {

        Count {
            folded = List.copyOf(folded);
        }

        static Count none(Stream of) {
            return new Count(of, 0, 0, "", List.of());
        }

        Count and(boolean again) {
            return again
                    ? new Count(of, changes, calledAgain + 1, id, folded)
                    : new Count(of, changes + 1, calledAgain, id, folded);
        }

        /** Whether the message that was counted last is one too many. */
        boolean isMore(boolean again, int atMost) {
            return (again ? changes + calledAgain : changes) > atMost;
        }

        Count folds(String into, More.Part part) {
            List<More.Part> all = new ArrayList<>(folded);
            all.add(part);
            return new Count(of, changes, calledAgain, into, all);
        }
    }

    private final Map<Stream, Count> counts = new LinkedHashMap<>();
    private final StandInIds ids = new StandInIds();

    /**
     * Counts a message about an alarm.
     *
     * @return the id of the message that is to stand for it, if it is one too many
     */
    Optional<String> foldsInto(Notification message, int atMost) {
        Stream stream = Stream.of(message);
        boolean again = message.about() instanceof Again;
        Count count = counts.getOrDefault(stream, Count.none(stream)).and(again);
        Optional<String> into = Optional.empty();
        Grade grade = message.about().grade();
        if (count.isMore(again, atMost) && grade != Grade.CRITICAL) {
            String id = count.id().isEmpty() ? unused(stream) : count.id();
            boolean isCall = message.about().kind() == Message.Purpose.CALL;
            count = count.folds(id, new More.Part(message.id(), grade, isCall));
            into = Optional.of(id);
        }
        counts.put(stream, count);
        return into;
    }

    private String unused(Stream stream) {
        Instant begin = Instant.ofEpochSecond(stream.window * (WINDOW_MICROS / MICROS_PER_SECOND));
        String id = stream.machine + "/more/" + BEGIN.format(begin);
        return ids.unused(stream.name(), stream.window, id);
    }

    /** What was folded in intervals that are over; each is handed out once. */
    List<Notification> over(long nowMicros) {
        long window = Math.floorDiv(nowMicros, WINDOW_MICROS);
        List<Notification> over = new ArrayList<>();
        for (Count count : counts.values()) {
            if (count.of().window() != window && !count.folded().isEmpty()) {
                Stream stream = count.of();
                ids.use(stream.name(), stream.window());
                More more = new More(stream.machine(), count.folded());
                over.add(new Notification(count.id(), stream.route(), nowMicros, more));
            }
        }
        counts.keySet().removeIf(stream -> stream.window() != window);
        return over;
    }

    /** What an earlier leat has used is not known. */
    void begin(long nowMicros) {
        ids.forget(
                Math.floorDiv(nowMicros, WINDOW_MICROS),
                Math.floorDiv(nowMicros, MICROS_PER_SECOND));
    }

    /**
     * @param routes names of those that there are: what was folded for another will never be told
     */
    void keep(State state, Set<String> routes) {
        state.part("ids", ids::keep);
        List<Count> kept = state.keep("counts", Count.class, List.copyOf(counts.values()));
        counts.clear();
        kept.stream()
                .filter(count -> routes.contains(count.of().route()))
                .forEach(count -> counts.put(count.of(), count));
    }
}
