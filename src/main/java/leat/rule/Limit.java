package leat.rule;

import java.util.Optional;

/**
 * Every figure that a judgement rests on: its name in {@code site.yaml} under {@code limits}, what
 * it measures, its default, the range allowed, and where the default comes from.
 *
 * <p>Inside leat a pressure is psi gauge and a time is seconds.
 */
public enum Limit {
    RATIO_WARNING(
            "ratio.warning",
            Kind.RATIO,
            2.0,
            1.0,
            10,
            Origin.TRADE,
            "boosted over inlet pressure, below which the booster is weak"),
    RATIO_WARNING_CLEAR(
            "ratio.warning_clear",
            Kind.RATIO,
            2.1,
            1.0,
            10,
            Origin.MODEL,
            "ratio above which that warning clears"),
    RATIO_CRITICAL(
            "ratio.critical",
            Kind.RATIO,
            1.2,
            0.5,
            10,
            Origin.TRADE,
            "ratio below which the booster does not boost at all"),
    RATIO_CRITICAL_CLEAR(
            "ratio.critical_clear",
            Kind.RATIO,
            1.4,
            0.5,
            10,
            Origin.MODEL,
            "ratio above which that alarm clears"),
    RATIO_MIN_INLET(
            "ratio.min_inlet",
            Kind.PRESSURE,
            10,
            1,
            100,
            Origin.MODEL,
            "no ratio is judged below this inlet pressure"),
    RATIO_ARM(
            "ratio.arm",
            Kind.TIME,
            15,
            0,
            600,
            Origin.MODEL,
            "time from the start of the booster until the ratio is judged"),
    RATIO_WARNING_DELAY(
            "ratio.warning_delay",
            Kind.TIME,
            30,
            0,
            3600,
            Origin.MODEL,
            "how long the ratio must be low before a warning"),
    RATIO_CRITICAL_DELAY(
            "ratio.critical_delay",
            Kind.TIME,
            5,
            0,
            3600,
            Origin.MODEL,
            "how long boost must be missing before the alarm"),
    RATIO_OFF_DELAY(
            "ratio.off_delay",
            Kind.TIME,
            10,
            0,
            3600,
            Origin.MODEL,
            "how long the ratio must be good before the alarm clears"),

    LEVEL_SET(
            "level.set",
            Kind.PRESSURE,
            100,
            10,
            200,
            Origin.TRADE,
            "level that the regulator or bypass valve is set to"),
    LEVEL_TOLERANCE(
            "level.tolerance",
            Kind.PRESSURE,
            10,
            1,
            50,
            Origin.TRADE,
            "within this of the set level no ratio is judged"),
    LEVEL_ADVISORY(
            "level.advisory",
            Kind.PRESSURE,
            90,
            1,
            300,
            Origin.TRADE,
            "boosted pressure below which the level is under the preferred one"),
    LEVEL_WARNING(
            "level.warning",
            Kind.PRESSURE,
            80,
            1,
            300,
            Origin.TRADE,
            "boosted pressure below which the level is too low"),
    LEVEL_DEADBAND(
            "level.deadband",
            Kind.PRESSURE,
            2,
            0,
            50,
            Origin.MODEL,
            "a low level clears this much above its limit"),
    LEVEL_ARM(
            "level.arm",
            Kind.TIME,
            15,
            0,
            600,
            Origin.MODEL,
            "time from the start of the booster until the level is judged"),
    LEVEL_DELAY(
            "level.delay", Kind.TIME, 30, 0, 3600, Origin.MODEL, "how long the level must be low"),
    LEVEL_HIGH_ADVISORY(
            "level.high_advisory",
            Kind.PRESSURE,
            120,
            1,
            400,
            Origin.TRADE,
            "boosted pressure above which there is no need to go"),
    LEVEL_HIGH_WARNING(
            "level.high_warning",
            Kind.PRESSURE,
            140,
            1,
            400,
            Origin.TRADE,
            "boosted pressure that is too high"),
    LEVEL_HIGH_DEADBAND(
            "level.high_deadband",
            Kind.PRESSURE,
            3,
            0,
            50,
            Origin.MODEL,
            "a high level clears this much below its limit"),
    LEVEL_HIGH_DELAY(
            "level.high_delay",
            Kind.TIME,
            60,
            0,
            3600,
            Origin.MODEL,
            "how long the level must be high"),
    LEVEL_OFF_DELAY(
            "level.off_delay",
            Kind.TIME,
            10,
            0,
            3600,
            Origin.MODEL,
            "how long the level must be good before the alarm clears"),

    RISE_ADVISORY(
            "rise.advisory",
            Kind.TIME,
            3,
            0.1,
            120,
            Origin.TRADE,
            "10-90 % rise from rest that is slow"),
    RISE_WARNING(
            "rise.warning",
            Kind.TIME,
            6,
            0.1,
            120,
            Origin.TRADE,
            "10-90 % rise from rest that is very slow"),
    RISE_CRITICAL(
            "rise.critical",
            Kind.TIME,
            12,
            1,
            300,
            Origin.TRADE,
            "time from the start by which the pressure must have risen"),
    RISE_FIXED_LEVEL(
            "rise.fixed_level",
            Kind.PRESSURE,
            75,
            20,
            150,
            Origin.MODEL,
            "pressure to which every climb is timed, whatever level it reaches: wear shows there first"),
    RISE_RELAXED_STARTS(
            "rise.relaxed_starts",
            Kind.COUNT,
            3,
            0,
            50,
            Origin.TRADE,
            "starts after service in which air may still purge and a slow rise is only noted"),
    RISE_RELAXED_CRITICAL(
            "rise.relaxed_critical",
            Kind.TIME,
            30,
            1,
            300,
            Origin.MODEL,
            "instead of rise.critical in those starts"),

    REST_ADVISORY(
            "rest.advisory",
            Kind.PRESSURE,
            5,
            0.5,
            100,
            Origin.TRADE,
            "boosted pressure with the water shut, which should read 0"),
    REST_CLEAR(
            "rest.clear",
            Kind.PRESSURE,
            4,
            0.1,
            100,
            Origin.MODEL,
            "rest pressure below which the alarm clears"),
    REST_WARNING_SHARE(
            "rest.warning_share",
            Kind.RATIO,
            0.7,
            0.1,
            1,
            Origin.MODEL,
            "share of the inlet pressure at rest that means the shut-off valve leaks through"),
    REST_MIN_INLET(
            "rest.min_inlet",
            Kind.PRESSURE,
            10,
            1,
            100,
            Origin.MODEL,
            "the rest pressure is compared with the inlet only above this inlet pressure"),
    REST_FALLING(
            "rest.falling",
            Kind.PRESSURE_RATE,
            0.1,
            0.001,
            10,
            Origin.MODEL,
            "psi per second; a pressure that falls faster is still on its way down and not judged"),
    REST_ARM(
            "rest.arm",
            Kind.TIME,
            12,
            0,
            3600,
            Origin.MODEL,
            "time from the stop until the rest pressure is judged"),
    REST_DELAY(
            "rest.delay",
            Kind.TIME,
            5,
            0,
            3600,
            Origin.MODEL,
            "how long the rest pressure must stand"),
    REST_OFF_DELAY(
            "rest.off_delay",
            Kind.TIME,
            10,
            0,
            3600,
            Origin.MODEL,
            "how long the rest pressure must be good before the alarm clears"),
    REST_BLEEDS(
            "rest.bleeds",
            Kind.FLAG,
            1,
            0,
            1,
            Origin.TRADE,
            "no for a line without a bleed, which keeps its pressure at rest: then it is not judged"),

    INLET_ADVISORY(
            "inlet.advisory",
            Kind.PRESSURE,
            25,
            0,
            100,
            Origin.TRADE,
            "inlet pressure while running below which the supply is weak"),
    INLET_WARNING(
            "inlet.warning",
            Kind.PRESSURE,
            15,
            0,
            100,
            Origin.TRADE,
            "inlet pressure while running that is too low"),
    INLET_CRITICAL(
            "inlet.critical",
            Kind.PRESSURE,
            5,
            0,
            100,
            Origin.TRADE,
            "inlet pressure while running at which the booster may run dry"),
    INLET_DEADBAND(
            "inlet.deadband",
            Kind.PRESSURE,
            3,
            0,
            50,
            Origin.MODEL,
            "a low inlet clears this much above its limit"),
    INLET_ARM(
            "inlet.arm",
            Kind.TIME,
            5,
            0,
            600,
            Origin.MODEL,
            "time from the start until the inlet is judged; filling pulls it down"),
    INLET_DELAY(
            "inlet.delay", Kind.TIME, 10, 0, 3600, Origin.MODEL, "how long the inlet must be low"),
    INLET_CRITICAL_DELAY(
            "inlet.critical_delay",
            Kind.TIME,
            1,
            0,
            3600,
            Origin.MODEL,
            "how long the inlet must be starved"),
    INLET_OFF_DELAY(
            "inlet.off_delay",
            Kind.TIME,
            10,
            0,
            3600,
            Origin.MODEL,
            "how long the inlet must be good before the alarm clears"),
    INLET_LATCH(
            "inlet.latch",
            Kind.FLAG,
            0,
            0,
            1,
            Origin.TRADE,
            "yes: after a starved inlet the alarm stays until acknowledged and reset (leat reset)"),

    BASELINE_STARTS(
            "baseline.starts",
            Kind.COUNT,
            10,
            3,
            50,
            Origin.MODEL,
            "good starts that make the machine's own baseline"),
    BASELINE_STARTS_RUNNING(
            "baseline.starts_running",
            Kind.COUNT,
            3,
            1,
            50,
            Origin.MODEL,
            "starts running that must differ from the baseline in the same way"),
    BASELINE_SPREADS(
            "baseline.spreads",
            Kind.RATIO,
            3,
            0,
            20,
            Origin.MODEL,
            "a start differs only by more than so many times the baseline's spread"),
    BASELINE_TOP_ADVISORY(
            "baseline.top_advisory",
            Kind.RATIO,
            0.93,
            0.3,
            1,
            Origin.MODEL,
            "share of its own boosted level below which a start differs"),
    BASELINE_TOP_WARNING(
            "baseline.top_warning",
            Kind.RATIO,
            0.85,
            0.3,
            1,
            Origin.MODEL,
            "share of its own boosted level below which that is a warning"),
    BASELINE_INLET_SAME(
            "baseline.inlet_same",
            Kind.PRESSURE,
            7,
            1,
            100,
            Origin.MODEL,
            "the boosted level is compared only while the inlet is within this of its own"),
    BASELINE_RISE(
            "baseline.rise",
            Kind.RATIO,
            1.8,
            1,
            20,
            Origin.MODEL,
            "times its own 10-90 % rise above which a start differs"),
    BASELINE_TIME_TO_LEVEL(
            "baseline.time_to_level",
            Kind.RATIO,
            1.5,
            1,
            20,
            Origin.MODEL,
            "times its own time from 10 % to the fixed level above which a start differs"),
    BASELINE_INLET_SAG(
            "baseline.inlet_sag",
            Kind.PRESSURE,
            4,
            0.5,
            100,
            Origin.MODEL,
            "how much more than usual the inlet may lose while running"),
    BASELINE_DROP(
            "baseline.drop",
            Kind.PRESSURE,
            2.5,
            0.5,
            100,
            Origin.MODEL,
            "how much more than usual the level may drop when strokes begin"),
    BASELINE_RISE_ADVISORY(
            "baseline.rise_advisory",
            Kind.RATIO,
            1.5,
            1,
            20,
            Origin.MODEL,
            "instead of rise.advisory so many times its own rise, where that is more"),
    BASELINE_RISE_WARNING(
            "baseline.rise_warning",
            Kind.RATIO,
            2.5,
            1,
            20,
            Origin.MODEL,
            "instead of rise.warning so many times its own rise, where that is more"),

    SIGNAL_BLIND(
            "signal.blind",
            Kind.TIME,
            2,
            0.1,
            600,
            Origin.MODEL,
            "silence of a pressure channel after which nothing is judged"),
    SIGNAL_MISSING(
            "signal.missing",
            Kind.TIME,
            5,
            0.5,
            3600,
            Origin.MODEL,
            "how long a channel must be silent or BAD before a warning"),
    SIGNAL_STUCK(
            "signal.stuck",
            Kind.TIME,
            5,
            1,
            3600,
            Origin.MODEL,
            "how long a reading must stay the same to the bit while the other channel moves"),
    SIGNAL_STUCK_OTHER(
            "signal.stuck_other",
            Kind.PRESSURE,
            1,
            0.1,
            50,
            Origin.MODEL,
            "how far the other channel must have moved meanwhile"),
    SIGNAL_OFF_DELAY(
            "signal.off_delay",
            Kind.TIME,
            10,
            0,
            3600,
            Origin.MODEL,
            "how long a channel must speak well before the alarm clears"),

    ALARM_CHATTER_COUNT(
            "alarm.chatter_count",
            Kind.COUNT,
            3,
            2,
            50,
            Origin.STANDARD,
            "an alarm that comes so often within alarm.chatter_window chatters: repeats only count"),
    ALARM_CHATTER_WINDOW(
            "alarm.chatter_window",
            Kind.TIME,
            300,
            10,
            86_400,
            Origin.STANDARD,
            "the time for alarm.chatter_count; what comes again within it is the same alarm"),
    ALARM_CHATTER_QUIET(
            "alarm.chatter_quiet",
            Kind.TIME,
            600,
            10,
            86_400,
            Origin.TRADE,
            "how long a chattering alarm's condition must keep still until it has stopped"),
    ALARM_LONGEST_HOLD(
            "alarm.longest_hold",
            Kind.TIME,
            86_400,
            60,
            2_592_000,
            Origin.TRADE,
            "the longest that an alarm may be shelved at a time, or a machine be in service");

    /** What a limit measures; inside leat psi, seconds, psi per second. */
    public enum Kind {
        PRESSURE,
        PRESSURE_RATE,
        TIME,
        RATIO,
        COUNT,
        /** 1 for yes, 0 for no. */
        FLAG
    }

    /** Where a default comes from. */
    public enum Origin {
        TRADE("common practice, no published source"),
        MODEL("own model runs, invented parameters"),
        /** The standard gives no figure of its own; of those in use, see decision 0015. */
        STANDARD("in use with ISA-18.2, read at second hand");

        private final String words;

        Origin(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    private final String key;
    private final Kind kind;
    private final double defaultValue;
    private final double min;
    private final double max;
    private final Origin origin;
    private final String meaning;

    Limit(
            String key,
            Kind kind,
            double defaultValue,
            double min,
            double max,
            Origin origin,
            String meaning) {
        this.key = key;
        this.kind = kind;
        this.defaultValue = defaultValue;
        this.min = min;
        this.max = max;
        this.origin = origin;
        this.meaning = meaning;
    }

    /** Dotted name such as {@code rise.warning}. */
    public String key() {
        return key;
    }

    public Kind kind() {
        return kind;
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

    public String meaning() {
        return meaning;
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
