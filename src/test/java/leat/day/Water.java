package leat.day;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;

/**
 * The gauges of one machine over a day of which every moment is known beforehand: every 24 minutes
 * or so something is wrong for some minutes. Thread-confined.
 */
final class Water {

    static final long SECOND = 1_000_000;
    private static final long MINUTE = 60 * SECOND;
    private static final long EVERY = 24 * MINUTE;

    /** Of the day. */
    static final int HOURS = 24;

    private static final long DAY = HOURS * 60 * MINUTE;

    /** At the end of the day, so that what is told of the last fault arrives within it. */
    private static final long EVENING = 30 * MINUTE;

    private record Bout(Fault fault, long fromMicros, long toMicros) {}

    private final Random random;
    private final List<Bout> bouts = new ArrayList<>();
    private int next;

    /**
     * @param morningMicros event time at which the day begins
     * @param firstMinute of the day, in which something is wrong
     */
    static Water ofADay(long seed, long morningMicros, int firstMinute) {
        return new Water(seed, morningMicros + firstMinute * MINUTE, morningMicros + DAY - EVENING);
    }

    /** Event time at which a day is over. */
    static long endOfDay(long morningMicros) {
        return morningMicros + DAY;
    }

    private Water(long seed, long firstMicros, long untilMicros) {
        random = new Random(seed);
        Fault last = Fault.NONE;
        for (long at = firstMicros; at < untilMicros; at += EVERY) {
            Fault fault = last;
            while (fault == last) {
                fault = Fault.values()[1 + random.nextInt(Fault.values().length - 1)];
            }
            long from = at + random.nextInt(120) * SECOND;
            bouts.add(new Bout(fault, from, from + (180 + random.nextInt(240)) * SECOND));
            last = fault;
        }
    }

    /** What the gauges show at that time; times grow from call to call. */
    List<Input> at(long micros) {
        while (next < bouts.size() && bouts.get(next).toMicros() <= micros) {
            next++;
        }
        boolean isOn = next < bouts.size() && bouts.get(next).fromMicros() <= micros;
        Fault fault = isOn ? bouts.get(next).fault() : Fault.NONE;
        return List.of(
                fault.inlet(micros, noise()),
                fault.boosted(micros, noise()),
                Reading.good(Channel.RUNNING, micros, 1));
    }

    private double noise() {
        return 2 * random.nextDouble() - 1;
    }
}
