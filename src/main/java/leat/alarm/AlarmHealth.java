package leat.alarm;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import leat.rule.Grade;

/**
 * How well people can live with the alarms: the performance figures of ANSI/ISA-18.2-2016, clause
 * 16.4 (read at second hand), over all machines of a store. What counts is each call on a person.
 * Intervals are of the clock, ten minutes and whole hours UTC, as the standard counts them.
 * Immutable.
 *
 * @param fromMicros begin, microseconds UTC
 * @param toMicros end; not before the begin
 * @param calls how often somebody was called
 * @param byGrade those of each grade
 * @param mostIn10Min the most calls in one ten-minute interval
 * @param crowded10Min share of ten-minute intervals with more than ten calls
 * @param crowdedHours share of hours with more than thirty calls
 * @param floods how often a flood began: an interval with more than ten calls; it ends with one
 *     that has fewer than five
 * @param floodShare share of the time in flood
 * @param chattering alarms that chattered
 * @param stale alarms that stand for more than 24 h at the end, and that nothing holds back
 * @param held alarms that are shelved, suppressed or out of service at the end
 * @param topTen the alarms that called most, most frequent first, as {@code machine.rule}
 */
public record AlarmHealth(
        long fromMicros,
        long toMicros,
        long calls,
        Map<Grade, Long> byGrade,
        long mostIn10Min,
        double crowded10Min,
        double crowdedHours,
        long floods,
        double floodShare,
        long chattering,
        long stale,
        long held,
        List<Frequent> topTen) {

    private static final long TEN_MINUTES = 600_000_000L;
    private static final long HOUR = 3_600_000_000L;
    private static final long DAY = 86_400_000_000L;
    private static final int FLOOD_BEGINS_ABOVE = 10;
    private static final int FLOOD_ENDS_BELOW = 5;
    private static final int CROWDED_HOUR = 30;
    private static final int TOP = 10;

    /**
     * One alarm and how often it called.
     *
     * @param alarm machine and rule, such as {@code jet-1.ratio}
     * @param calls how often
     */
    public record Frequent(String alarm, long calls) {}

    public AlarmHealth {
        byGrade = Map.copyOf(byGrade);
        topTen = List.copyOf(topTen);
    }

    /**
     * @param changes all changes in that time, in the order of time
     * @param standing the last change of each alarm that is not back to normal at the end
     * @param fromMicros begin, microseconds UTC
     * @param toMicros end, microseconds UTC; not before the begin
     */
    public static AlarmHealth of(
            List<AlarmChange> changes, List<AlarmChange> standing, long fromMicros, long toMicros) {
        List<AlarmChange> calls = changes.stream().filter(AlarmChange::isCall).toList();
        Map<Long, Integer> tens = per(calls, TEN_MINUTES);
        Map<Long, Integer> hours = per(calls, HOUR);
        long intervals = intervals(fromMicros, toMicros, TEN_MINUTES);
        Floods floods = Floods.in(tens);
        return new AlarmHealth(
                fromMicros,
                toMicros,
                calls.size(),
                grades(calls),
                tens.values().stream().mapToInt(n -> n).max().orElse(0),
                above(tens, FLOOD_BEGINS_ABOVE) / (double) intervals,
                above(hours, CROWDED_HOUR) / (double) intervals(fromMicros, toMicros, HOUR),
                floods.begun(),
                floods.intervals() / (double) intervals,
                chattering(changes),
                standing.stream().filter(c -> isStale(c, toMicros)).count(),
                standing.stream().filter(c -> c.to().isHeld()).count(),
                topTen(calls));
    }

    private static Map<Long, Integer> per(List<AlarmChange> calls, long micros) {
        Map<Long, Integer> counts = new TreeMap<>();
        calls.forEach(c -> counts.merge(Math.floorDiv(c.atMicros(), micros), 1, Integer::sum));
        return counts;
    }

    private static long intervals(long fromMicros, long toMicros, long micros) {
        return Math.floorDiv(toMicros, micros) - Math.floorDiv(fromMicros, micros) + 1;
    }

    private static long above(Map<Long, Integer> counts, int limit) {
        return counts.values().stream().filter(n -> n > limit).count();
    }

    private static Map<Grade, Long> grades(List<AlarmChange> calls) {
        Map<Grade, Long> counts = new EnumMap<>(Grade.class);
        for (Grade grade : Grade.values()) {
            counts.put(grade, calls.stream().filter(c -> c.finding().grade() == grade).count());
        }
        return counts;
    }

    private static long chattering(List<AlarmChange> changes) {
        Set<String> alarms = new HashSet<>();
        for (AlarmChange change : changes) {
            if (change.notes().chattering()) {
                alarms.add(change.alarmId());
            }
        }
        return alarms.size();
    }

    private static boolean isStale(AlarmChange last, long toMicros) {
        return last.to().isActive() && toMicros - last.raisedAtMicros() > DAY;
    }

    private static List<Frequent> topTen(List<AlarmChange> calls) {
        Map<String, Long> counts = new TreeMap<>();
        calls.forEach(c -> counts.merge(name(c.alarmId()), 1L, Long::sum));
        List<Frequent> all = new ArrayList<>();
        counts.forEach((alarm, count) -> all.add(new Frequent(alarm, count)));
        all.sort(Comparator.comparingLong(Frequent::calls).reversed());
        return all.subList(0, Math.min(TOP, all.size()));
    }

    /** The id without the time of its occurrence. */
    private static String name(String alarmId) {
        int stamp = alarmId.lastIndexOf('.');
        return stamp < 0 ? alarmId : alarmId.substring(0, stamp);
    }

    public double days() {
        return (toMicros - fromMicros) / (double) DAY;
    }

    /** Over a whole day at least, so that one alarm in the first minute is not a thousand a day. */
    public double callsPerDay() {
        return calls / Math.max(1, days());
    }

    /** Likewise over a whole day at least. */
    public double callsPer10Min() {
        return callsPerDay() * TEN_MINUTES / DAY;
    }

    /** Share of the ten most frequent alarms in all calls; 0 without calls. */
    public double topTenShare() {
        long top = topTen.stream().mapToLong(Frequent::calls).sum();
        return calls == 0 ? 0 : top / (double) calls;
    }

    /** Share of a grade in all calls; 0 without calls. */
    public double share(Grade grade) {
        return calls == 0 ? 0 : byGrade.get(grade) / (double) calls;
    }

    /**
     * Times at which calls come faster than a person can follow.
     *
     * @param begun how many began
     * @param intervals of ten minutes that lie in one
     */
    private record Floods(long begun, long intervals) {

        static Floods in(Map<Long, Integer> tens) {
            long begun = 0;
            long intervals = 0;
            for (long tenMinutes : tens.keySet()) {
                boolean goesOn = intervals > 0 && isIn(tens, tenMinutes - 1);
                if (!goesOn && tens.get(tenMinutes) > FLOOD_BEGINS_ABOVE) {
                    begun++;
                }
                intervals += isIn(tens, tenMinutes) ? 1 : 0;
            }
            return new Floods(begun, intervals);
        }

        /** An interval is in flood from one that begins it until one that ends it. */
        private static boolean isIn(Map<Long, Integer> tens, long tenMinutes) {
            long at = tenMinutes;
            while (tens.getOrDefault(at, 0) >= FLOOD_ENDS_BELOW) {
                if (tens.get(at) > FLOOD_BEGINS_ABOVE) {
                    return true;
                }
                at--;
            }
            return false;
        }
    }
}
