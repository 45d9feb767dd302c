package leat.day;

import java.util.List;

/**
 * One trouble of one part, as it was.
 *
 * @param route of the part
 * @param fromMicros real time before it began
 * @param begunMicros real time at which it had set in
 * @param endedMicros real time before it ended
 * @param endedEventMicros event time before it ended
 * @param untilMicros real time at which the route had caught up
 * @param triesInVain tries of the route that failed meanwhile
 * @param unsaid what the route should have said of itself and did not
 */
record Bout(
        String route,
        Ailment trouble,
        long fromMicros,
        long begunMicros,
        long endedMicros,
        long endedEventMicros,
        long untilMicros,
        long triesInVain,
        List<String> unsaid) {

    Bout {
        unsaid = List.copyOf(unsaid);
    }

    Hour hour() {
        return Hour.of(route, trouble);
    }

    /** With the time in which the route caught up. */
    boolean spans(long realMicros) {
        return realMicros >= fromMicros && realMicros <= untilMicros;
    }

    boolean isInForce(long realMicros) {
        return realMicros > begunMicros && realMicros < endedMicros;
    }
}
