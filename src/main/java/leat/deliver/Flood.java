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
import leat.wire.State;

/**
 * Counts what each route gets of each machine in each ten minutes of the clock, and folds what is
 * too much. ISA-18.2 / IEC 62682 call more than 10 alarms in a 10-minute interval a flood (at
 * second hand); fixed intervals, as they count. Only calls take places. Some of them are kept for
 * pressures that are WARNING; calls about what nobody has acknowledged take only those that new
 * calls have left. Thread-confined.
 */
final class Flood {

    private static final long WINDOW_MICROS = 600_000_000;

    /** Of ten places so many are for pressures that are WARNING alone: leat's own choice. */
    private static final int KEPT_OF_TEN = 3;

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
     * @param changes calls that told of a change of an alarm
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

        /** Whether so many places are taken; what is told again gets those that are left. */
        boolean isFull(boolean again, int places) {
            return (again ? changes + folded.size() + calledAgain : changes) >= places;
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
     * Counts a call.
     *
     * @return the id of the message that is to stand for it, if it is one too many
     */
    Optional<String> foldsInto(Notification call, int atMost) {
        Stream stream = Stream.of(call);
        boolean again = call.about() instanceof LaterCall later && later.isAgain();
        Count count = counts.getOrDefault(stream, Count.none(stream));
        if (count.isFull(again, places(call.about(), atMost))
                && call.about().grade() != Grade.CRITICAL) {
            return Optional.of(fold(count, call));
        }
        counts.put(stream, count.and(again));
        return Optional.empty();
    }

    /**
     * News takes no place. But what was folded itself has no news told by itself, as long as the
     * message that stands for it is not out.
     */
    Optional<String> foldsInto(Notification news) {
        return Optional.ofNullable(counts.get(Stream.of(news)))
                .filter(count -> !count.id().isEmpty())
                .map(count -> fold(count, news));
    }

    private String fold(Count count, Notification message) {
        String id = count.id().isEmpty() ? unused(count.of()) : count.id();
        counts.put(count.of(), count.folds(id, More.Part.of(message)));
        return id;
    }

    /** The last of ten are kept for pressures that are WARNING. */
    private static int places(About about, int atMost) {
        boolean first =
                about.grade() == Grade.WARNING
                        && about.alarm().stream()
                                .noneMatch(a -> a.change().finding().rule().isAboutSignal());
        return first ? atMost : atMost - atMost * KEPT_OF_TEN / 10;
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
