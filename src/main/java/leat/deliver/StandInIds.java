package leat.deliver;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import leat.wire.State;

/**
 * Gives each message that stands for others an id of its own. Such a message is made once and
 * cannot take up any more: when the clock was set back into a time whose message has been made,
 * what is folded then needs another id, or it would never be told. An id that carries a time whose
 * message may have been made gets a number that counts on. Thread-confined.
 */
final class StandInIds {

    private static final int MOST_TIMES = 10;

    /**
     * Of one stream of messages.
     *
     * @param floor up to this time any message may have been made
     * @param times later ones whose message has been made, growing
     * @param number the last that was put behind an id; the first is 2
     */
    private record Used(long floor, List<Long> times, long number) {
        static final Used NONE = new Used(Long.MIN_VALUE, List.of(), 1);

        Used {
            times = List.copyOf(times);
        }

        boolean has(long time) {
            return time <= floor || times.contains(time);
        }

        Used next() {
            return new Used(floor, times, number + 1);
        }

        Used and(long time) {
            if (has(time)) {
                return this;
            }
            List<Long> all = new ArrayList<>(times);
            all.add(time);
            all.sort(Comparator.naturalOrder());
            return all.size() <= MOST_TIMES
                    ? new Used(floor, all, number)
                    : new Used(all.get(0), all.subList(1, all.size()), number);
        }
    }

    private final Map<String, Used> streams = new LinkedHashMap<>();
    private Used unknown = Used.NONE;

    /**
     * @param stream whose messages have ids of their own
     * @param time that the id carries, in any unit
     * @param id to be made unique
     */
    String unused(String stream, long time, String id) {
        Used used = of(stream);
        if (!used.has(time)) {
            return id;
        }
        streams.put(stream, used.next());
        return id + "/" + of(stream).number();
    }

    /** The message of that time has been made. */
    void use(String stream, long time) {
        streams.put(stream, of(stream).and(time));
    }

    private Used of(String stream) {
        return streams.getOrDefault(stream, unknown);
    }

    /**
     * It is not known what was used.
     *
     * @param floor the latest time whose message may have been made
     * @param number no greater one was ever put behind an id
     */
    void forget(long floor, long number) {
        streams.clear();
        unknown = new Used(floor, List.of(), number);
    }

    void keep(State state) {
        unknown = state.keep("unknown", Used.class, unknown);
        Map<String, Used> kept = state.keep("streams", Used.class, new LinkedHashMap<>(streams));
        streams.clear();
        streams.putAll(kept);
    }
}
