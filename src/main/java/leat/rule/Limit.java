package leat.rule;

import static leat.rule.Limit.Dimension.COUNT;
import static leat.rule.Limit.Dimension.FLAG;
import static leat.rule.Limit.Dimension.PRESSURE;
import static leat.rule.Limit.Dimension.PRESSURE_RATE;
import static leat.rule.Limit.Dimension.RATIO;
import static leat.rule.Limit.Dimension.TIME;
import static leat.rule.Limit.Origin.MODEL;
import static leat.rule.Limit.Origin.STANDARD;
import static leat.rule.Limit.Origin.TRADE;

import java.util.Locale;
import java.util.Optional;

/**
 * Every figure that a judgement rests on: its name in {@code site.yaml} under {@code limits}, what
 * it measures, its default, the least and the most allowed, and where the default comes from. What
 * each means is said by the phrases {@code meaning.*}.
 *
 * <p>Inside leat a pressure is psi gauge and a time is seconds.
 */
public enum Limit {
    RATIO_WARNING("ratio.warning", RATIO, 2.0, 1.0, 10, TRADE),
    RATIO_WARNING_CLEAR("ratio.warning_clear", RATIO, 2.1, 1.0, 10, MODEL),
    RATIO_CRITICAL("ratio.critical", RATIO, 1.2, 0.5, 10, TRADE),
    RATIO_CRITICAL_CLEAR("ratio.critical_clear", RATIO, 1.4, 0.5, 10, MODEL),
    RATIO_MIN_INLET("ratio.min_inlet", PRESSURE, 10, 1, 100, MODEL),
    RATIO_ARM("ratio.arm", TIME, 15, 0, 600, MODEL),
    RATIO_WARNING_DELAY("ratio.warning_delay", TIME, 30, 0, 3600, MODEL),
    RATIO_CRITICAL_DELAY("ratio.critical_delay", TIME, 5, 0, 3600, MODEL),
    RATIO_OFF_DELAY("ratio.off_delay", TIME, 10, 0, 3600, MODEL),

    LEVEL_SET("level.set", PRESSURE, 100, 10, 200, TRADE),
    LEVEL_TOLERANCE("level.tolerance", PRESSURE, 10, 1, 50, TRADE),
    LEVEL_ADVISORY("level.advisory", PRESSURE, 90, 1, 300, TRADE),
    LEVEL_WARNING("level.warning", PRESSURE, 80, 1, 300, TRADE),
    LEVEL_DEADBAND("level.deadband", PRESSURE, 2, 0, 50, MODEL),
    LEVEL_ARM("level.arm", TIME, 15, 0, 600, MODEL),
    LEVEL_DELAY("level.delay", TIME, 30, 0, 3600, MODEL),
    LEVEL_HIGH_ADVISORY("level.high_advisory", PRESSURE, 120, 1, 400, TRADE),
    LEVEL_HIGH_WARNING("level.high_warning", PRESSURE, 140, 1, 400, TRADE),
    LEVEL_HIGH_DEADBAND("level.high_deadband", PRESSURE, 3, 0, 50, MODEL),
    LEVEL_HIGH_DELAY("level.high_delay", TIME, 60, 0, 3600, MODEL),
    LEVEL_OFF_DELAY("level.off_delay", TIME, 10, 0, 3600, MODEL),

    RISE_ADVISORY("rise.advisory", TIME, 3, 0.1, 120, TRADE),
    RISE_WARNING("rise.warning", TIME, 6, 0.1, 120, TRADE),
    RISE_CRITICAL("rise.critical", TIME, 12, 1, 300, TRADE),
    RISE_FIXED_LEVEL("rise.fixed_level", PRESSURE, 75, 20, 150, MODEL),
    RISE_RELAXED_STARTS("rise.relaxed_starts", COUNT, 3, 0, 50, TRADE),
    RISE_RELAXED_CRITICAL("rise.relaxed_critical", TIME, 30, 1, 300, MODEL),

    REST_ADVISORY("rest.advisory", PRESSURE, 5, 0.5, 100, TRADE),
    REST_CLEAR("rest.clear", PRESSURE, 4, 0.1, 100, MODEL),
    REST_WARNING_SHARE("rest.warning_share", RATIO, 0.7, 0.1, 1, MODEL),
    REST_MIN_INLET("rest.min_inlet", PRESSURE, 10, 1, 100, MODEL),
    REST_FALLING("rest.falling", PRESSURE_RATE, 0.1, 0.001, 10, MODEL),
    REST_ARM("rest.arm", TIME, 12, 0, 3600, MODEL),
    REST_DELAY("rest.delay", TIME, 5, 0, 3600, MODEL),
    REST_OFF_DELAY("rest.off_delay", TIME, 10, 0, 3600, MODEL),
    REST_BLEEDS("rest.bleeds", FLAG, 1, 0, 1, TRADE),

    INLET_ADVISORY("inlet.advisory", PRESSURE, 25, 0, 100, TRADE),
    INLET_WARNING("inlet.warning", PRESSURE, 15, 0, 100, TRADE),
    INLET_CRITICAL("inlet.critical", PRESSURE, 5, 0, 100, TRADE),
    INLET_DEADBAND("inlet.deadband", PRESSURE, 3, 0, 50, MODEL),
    INLET_ARM("inlet.arm", TIME, 5, 0, 600, MODEL),
    INLET_DELAY("inlet.delay", TIME, 10, 0, 3600, MODEL),
    INLET_CRITICAL_DELAY("inlet.critical_delay", TIME, 1, 0, 3600, MODEL),
    INLET_OFF_DELAY("inlet.off_delay", TIME, 10, 0, 3600, MODEL),
    INLET_LATCH("inlet.latch", FLAG, 0, 0, 1, TRADE),

    BASELINE_STARTS("baseline.starts", COUNT, 10, 3, 50, MODEL),
    BASELINE_STARTS_RUNNING("baseline.starts_running", COUNT, 3, 1, 50, MODEL),
    BASELINE_SPREADS("baseline.spreads", RATIO, 3, 0, 20, MODEL),
    BASELINE_TOP_ADVISORY("baseline.top_advisory", RATIO, 0.93, 0.3, 1, MODEL),
    BASELINE_TOP_WARNING("baseline.top_warning", RATIO, 0.85, 0.3, 1, MODEL),
    BASELINE_TOP_HIGH("baseline.top_high", RATIO, 1.1, 1, 3, MODEL),
    BASELINE_INLET_SAME("baseline.inlet_same", PRESSURE, 7, 1, 100, MODEL),
    BASELINE_RISE("baseline.rise", RATIO, 1.8, 1, 20, MODEL),
    BASELINE_TIME_TO_LEVEL("baseline.time_to_level", RATIO, 1.5, 1, 20, MODEL),
    BASELINE_BOOST_RATE("baseline.boost_rate", RATIO, 0.55, 0.05, 1, MODEL),
    BASELINE_DEAD_TIME("baseline.dead_time", TIME, 0.3, 0.05, 60, MODEL),
    BASELINE_INLET_SAG("baseline.inlet_sag", PRESSURE, 4, 0.5, 100, MODEL),
    BASELINE_DROP("baseline.drop", PRESSURE, 2.5, 0.5, 100, MODEL),
    BASELINE_WANDER("baseline.wander", PRESSURE, 0.8, 0.2, 100, MODEL),
    BASELINE_FILTER_LOSS("baseline.filter_loss", PRESSURE, 4, 0.5, 100, MODEL),
    BASELINE_FALL_QUICK("baseline.fall_quick", RATIO, 0.6, 0.05, 1, MODEL),
    BASELINE_FALL_SLOW("baseline.fall_slow", RATIO, 2, 1, 20, MODEL),
    BASELINE_RISE_ADVISORY("baseline.rise_advisory", RATIO, 1.5, 1, 20, MODEL),
    BASELINE_RISE_WARNING("baseline.rise_warning", RATIO, 2.5, 1, 20, MODEL),

    FILTER_ADVISORY("filter.advisory", PRESSURE, 10, 0.5, 100, TRADE),
    FILTER_WARNING("filter.warning", PRESSURE, 20, 0.5, 100, TRADE),
    FILTER_DEADBAND("filter.deadband", PRESSURE, 2, 0, 50, MODEL),
    FILTER_DELAY("filter.delay", TIME, 30, 0, 3600, MODEL),

    SIGNAL_BLIND("signal.blind", TIME, 2, 0.1, 600, MODEL),
    SIGNAL_MISSING("signal.missing", TIME, 5, 0.5, 3600, MODEL),
    SIGNAL_LOST_ADVISORY("signal.lost_share_advisory", RATIO, 0.1, 0.01, 1, TRADE),
    SIGNAL_LOST_WARNING("signal.lost_share_warning", RATIO, 0.25, 0.01, 1, TRADE),
    SIGNAL_STUCK("signal.stuck", TIME, 5, 1, 3600, MODEL),
    SIGNAL_STUCK_OTHER("signal.stuck_other", PRESSURE, 1, 0.1, 50, MODEL),
    SIGNAL_CLOCK("signal.clock", TIME, 1, 0.01, 2, MODEL),
    SIGNAL_OFF_DELAY("signal.off_delay", TIME, 10, 0, 3600, MODEL),

    ALARM_CHATTER_COUNT("alarm.chatter_count", COUNT, 3, 2, 50, STANDARD),
    ALARM_CHATTER_WINDOW("alarm.chatter_window", TIME, 300, 10, 86_400, STANDARD),
    ALARM_CHATTER_QUIET("alarm.chatter_quiet", TIME, 600, 10, 86_400, TRADE),
    ALARM_LONGEST_HOLD("alarm.longest_hold", TIME, 86_400, 60, 2_592_000, TRADE);

    /** What a limit measures; inside leat psi, seconds, psi per second. */
    public enum Dimension {
        PRESSURE,
        PRESSURE_RATE,
        TIME,
        RATIO,
        COUNT,
        /** 1 for yes, 0 for no. */
        FLAG
    }

    /** Where a default comes from, in the words of the phrases {@code origin.*}. */
    public enum Origin {
        TRADE,
        MODEL,
        /** The standard gives no figure of its own; of those in use, see decision 0015. */
        STANDARD;

        /** As in the phrases. */
        public String key() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private final String key;
    private final Dimension dimension;
    private final double defaultValue;
    private final double min;
    private final double max;
    private final Origin origin;

    Limit(
            String key,
            Dimension dimension,
            double defaultValue,
            double min,
            double max,
            Origin origin) {
        this.key = key;
        this.dimension = dimension;
        this.defaultValue = defaultValue;
        this.min = min;
        this.max = max;
        this.origin = origin;
    }

    /** Dotted name such as {@code rise.warning}. */
    public String key() {
        return key;
    }

    public Dimension dimension() {
        return dimension;
    }

    public double defaultValue() {
        return defaultValue;
    }

    public double min() {
        return min;
    }

    public double max() {
        return max;
    }

    public Origin origin() {
        return origin;
    }

    public static Optional<Limit> byKey(String key) {
        for (Limit limit : values()) {
            if (limit.key.equals(key)) {
                return Optional.of(limit);
            }
        }
        return Optional.empty();
    }
}
