package leat.replay;

import static java.util.Objects.requireNonNull;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.time.temporal.IsoFields;
import java.time.temporal.TemporalAdjusters;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import leat.rule.Grade;
import leat.rule.Rule;

/**
 * How often alarms of one rule and grade were called in one week, by the limits as they are and by
 * others. Weeks are those of ISO 8601, Monday to Sunday, in the site's time zone: one with a change
 * of the clocks has 167 or 169 hours. A call counts in the week in which it was raised, with the
 * gravest grade that it had.
 *
 * @param monday first day of the week
 * @param rule what was judged
 * @param grade the gravest grade of the calls
 * @param before calls as it is
 * @param after calls under the other limits
 */
public record WeekCount(LocalDate monday, Rule rule, Grade grade, int before, int after) {

    private static final Comparator<WeekCount> ORDER =
            Comparator.comparing(WeekCount::monday)
                    .thenComparing(WeekCount::rule)
                    .thenComparing(WeekCount::grade, Comparator.reverseOrder());

    public WeekCount {
        requireNonNull(monday, "monday");
        requireNonNull(rule, "rule");
        requireNonNull(grade, "grade");
        if (monday.getDayOfWeek() != DayOfWeek.MONDAY) {
            throw new IllegalArgumentException(monday + " is no Monday");
        }
    }

    /** Every week, rule and grade of which there was a call, in this order. */
    public static List<WeekCount> of(Collection<Backtest> backtests, ZoneId zone) {
        Map<Key, int[]> counts = new HashMap<>();
        for (Backtest backtest : backtests) {
            for (Backtest.Change change : backtest.changes()) {
                count(counts, change.before(), zone, 0);
                count(counts, change.after(), zone, 1);
            }
        }
        return counts.entrySet().stream()
                .map(e -> e.getKey().counted(e.getValue()[0], e.getValue()[1]))
                .sorted(ORDER)
                .toList();
    }

    private record Key(LocalDate monday, Rule rule, Grade grade) {

        WeekCount counted(int before, int after) {
            return new WeekCount(monday, rule, grade, before, after);
        }
    }

    private static void count(
            Map<Key, int[]> counts, Optional<AlarmCall> call, ZoneId zone, int which) {
        call.ifPresent(
                c -> {
                    Key key =
                            new Key(
                                    mondayOf(c.raisedAtMicros(), zone),
                                    c.gravest().rule(),
                                    c.grade());
                    counts.computeIfAbsent(key, k -> new int[2])[which]++;
                });
    }

    /** The Monday of the week in which a time falls. */
    static LocalDate mondayOf(long micros, ZoneId zone) {
        return Instant.EPOCH
                .plus(micros, ChronoUnit.MICROS)
                .atZone(zone)
                .toLocalDate()
                .with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
    }

    /** The week by its ISO 8601 name, such as {@code 2026-W02}. */
    public String week() {
        return String.format(
                Locale.ROOT,
                "%d-W%02d",
                monday.get(IsoFields.WEEK_BASED_YEAR),
                monday.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR));
    }
}
