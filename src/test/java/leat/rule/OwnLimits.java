package leat.rule;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Limits of which no two are alike and none is its default, so that one taken for another shows;
 * and sums of them, as a table of a test writes them: {@code rest.warning_share * 60 - 3}.
 */
final class OwnLimits {

    private static final String VALUES =
            """
            ratio.critical 1.3, ratio.critical_clear 1.55, ratio.warning 1.9, ratio.warning_clear 2.25
            ratio.min_inlet 12.5, ratio.arm 21, ratio.warning_delay 33, ratio.critical_delay 8
            ratio.off_delay 13
            level.set 104.5, level.tolerance 11.25, level.advisory 91.5, level.warning 83.5
            level.deadband 2.7, level.arm 23, level.delay 35, level.off_delay 14
            level.high_advisory 118.5, level.high_warning 133.5, level.high_deadband 4.3
            level.high_delay 47
            rise.advisory 3.7, rise.warning 7.3, rise.critical 16, rise.fixed_level 71.5
            rise.relaxed_starts 5, rise.relaxed_critical 41
            rest.advisory 6.6, rest.clear 3.4, rest.warning_share 0.63, rest.min_inlet 14.5
            rest.falling 0.16, rest.arm 19, rest.delay 7, rest.off_delay 11, rest.bleeds 1
            inlet.advisory 29.5, inlet.warning 19.5, inlet.critical 7.5, inlet.deadband 3.8
            inlet.arm 9, inlet.delay 18, inlet.critical_delay 3, inlet.off_delay 22, inlet.latch 1
            baseline.starts 6, baseline.starts_running 4, baseline.spreads 3.3
            baseline.top_advisory 0.91, baseline.top_warning 0.82, baseline.inlet_same 8.2
            baseline.rise 1.7, baseline.time_to_level 1.6, baseline.inlet_sag 4.7, baseline.drop 3.1, baseline.wander 1.65
            baseline.top_high 1.12, baseline.boost_rate 0.52, baseline.dead_time 0.65
            baseline.filter_loss 4.2, baseline.fall_quick 0.57, baseline.fall_slow 2.2
            baseline.rise_advisory 1.45, baseline.rise_warning 2.15
            filter.advisory 8.6, filter.warning 17.4, filter.deadband 2.1, filter.delay 31
            signal.lost_share_advisory 0.14, signal.lost_share_warning 0.31
            signal.blind 2.4, signal.missing 26, signal.stuck 28, signal.stuck_other 1.35
            signal.clock 0.7, signal.off_delay 25
            alarm.chatter_count 12, alarm.chatter_window 311, alarm.chatter_quiet 613
            alarm.longest_hold 7200
            """;

    /** Each value that is given here. */
    static final Map<Limit, Double> BY_LIMIT =
            VALUES.lines()
                    .flatMap(line -> Arrays.stream(line.split(", ")))
                    .map(text -> text.split(" "))
                    .collect(
                            Collectors.toMap(
                                    pair -> Limit.byKey(pair[0]).orElseThrow(),
                                    pair -> Double.valueOf(pair[1]),
                                    (one, other) -> {
                                        throw new IllegalStateException("a limit given twice");
                                    },
                                    () -> new EnumMap<>(Limit.class)));

    static final Limits ALL = Limits.with(BY_LIMIT);

    private OwnLimits() {}

    /** A limit by its name in the settings. */
    static double of(String key) {
        return ALL.get(Limit.byKey(key).orElseThrow(() -> new IllegalArgumentException(key)));
    }

    /** What a sum of products of limits and numbers comes to; each sign stands between blanks. */
    static double sum(String text) {
        double sum = 0;
        double product = 1;
        for (String word : text.split(" ")) {
            switch (word) {
                case "+", "-" -> {
                    sum += product;
                    product = word.equals("+") ? 1 : -1;
                }
                case "*" -> {
                    // the next word is a factor
                }
                default -> product *= isNumber(word) ? Double.parseDouble(word) : of(word);
            }
        }
        return sum + product;
    }

    private static boolean isNumber(String word) {
        return Character.isDigit(word.charAt(0));
    }

    /** The limits that stand in a text. */
    static Set<Limit> namedIn(String text) {
        return Stream.of(text.split("[^a-z_.]+"))
                .flatMap(word -> Limit.byKey(word).stream())
                .collect(Collectors.toCollection(() -> EnumSet.noneOf(Limit.class)));
    }
}
