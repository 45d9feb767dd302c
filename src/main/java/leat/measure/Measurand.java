package leat.measure;

import java.util.Optional;

/**
 * What is measured of a startup. Each has a key, which names its unit and is its name in JSON, in
 * the store and on the command line, and a few words for a person. Terms of transitions are those
 * of IEEE Std 181.
 */
public enum Measurand {
    /** Boosted low state level: before the start. */
    BASE("base_psi", Unit.PRESSURE),
    /**
     * Boosted high state level: what the climb reached. That is the level before the strokes, or
     * under them where they began in the climb; a {@link ClimbRemark} says which.
     */
    TOP("top_psi", Unit.PRESSURE),
    /** Boosted level after the climb, before the intensifier draws water. */
    UNLOADED("unloaded_psi", Unit.PRESSURE),
    /** Boosted level while the intensifier draws water. */
    LOADED("loaded_psi", Unit.PRESSURE),
    /** Level before the strokes less that under them. A worn pump loses much under load. */
    DROP("drop_psi", Unit.PRESSURE),
    /**
     * Highest boosted pressure since the climb began, mean of 0.3 s; also where it did not rise.
     */
    PEAK("peak_psi", Unit.PRESSURE),
    /**
     * The peak less the level under strokes. Tells what is lost under load also where the strokes
     * began before the climb had come to a level.
     */
    PEAK_DROP("peak_drop_psi", Unit.PRESSURE),
    /** Inlet level before the start. */
    INLET_REST("inlet_rest_psi", Unit.PRESSURE),
    /** Inlet level of the last seconds, under strokes where they have begun. */
    INLET_RUNNING("inlet_psi", Unit.PRESSURE),
    /** Inlet before the start less inlet while running. */
    INLET_SAG("inlet_sag_psi", Unit.PRESSURE),
    /** Inlet before the start less the lowest of it while the pressure rises. */
    INLET_DIP("inlet_dip_psi", Unit.PRESSURE),
    /**
     * Boosted level of the last seconds over the inlet's, gauge over gauge; under strokes if any.
     */
    RATIO("ratio", Unit.RATIO),
    /** Boosted less filtered under strokes: what the filters cost. */
    FILTER_LOSS("filter_loss_psi", Unit.PRESSURE),
    /** Start until the boosted pressure leaves its base. */
    DEAD("dead_time_s", Unit.TIME),
    /** Transition duration: 10 to 90 % of base to top. */
    RISE("rise_s", Unit.TIME),
    /** 10 to 90 % of inlet pressure to top: the boost without the fill. */
    RISE_FROM_INLET("rise_from_inlet_s", Unit.TIME),
    /** Straight line from 10 to 90 % of inlet pressure to top: the boost, however high the top. */
    BOOST_RATE("boost_psi_per_s", Unit.PRESSURE_RATE),
    /** Start until 90 % of base to top. Trapped air moves this most. */
    START_TO_90("start_to_90_s", Unit.TIME),
    /** From 10 % of base to top until a fixed pressure: unlike the rise it grows with all wear. */
    TIME_TO_LEVEL("time_to_level_s", Unit.TIME),
    /** Start until boosted is twice the inlet pressure. */
    TIME_TO_DOUBLE("time_to_double_s", Unit.TIME),
    /** Highest pressure above the top, in percent of base to top. */
    OVERSHOOT("overshoot_pct", Unit.PERCENT),
    /** Lowest pressure below the top after that, in percent of base to top. */
    UNDERSHOOT("undershoot_pct", Unit.PERCENT),
    /** From the 50 % instant until the pressure stays within 2 % of base to top around the top. */
    SETTLING("settling_s", Unit.TIME),
    /** Standard deviation of the pressure around its slow mean once strokes have begun. */
    RIPPLE("ripple_psi", Unit.PRESSURE),
    /** Strokes a second. */
    RIPPLE_RATE("ripple_hz", Unit.FREQUENCY),
    /** Standard deviation of the slow mean once strokes have begun. */
    WANDER("wander_psi", Unit.PRESSURE),
    /**
     * The same without what the level does along with the inlet: what the booster and its regulator
     * do by themselves.
     */
    UNREST("unrest_psi", Unit.PRESSURE),
    /**
     * Standard deviation of the inlet's mean of a second, of a run: a coupling that slips shakes it
     * too, a worn pump hardly does.
     */
    INLET_WANDER("inlet_wander_psi", Unit.PRESSURE),
    /**
     * Standard deviation of the inlet pressure within a second, of a run: the strokes come back
     * through an open regulator, and hardly through a pump that gives out.
     */
    INLET_RIPPLE("inlet_ripple_psi", Unit.PRESSURE),
    /**
     * Correlation of the changes of inlet and boosted pressure from second to second, of a run, -1
     * to 1: what is drawn takes both down; a coupling that slips takes one down and the other up.
     */
    SWAY("sway", Unit.RATIO),
    /** How often the readings of the inlet gauge broke off in a run and came back. */
    INLET_BREAKS("inlet_breaks", Unit.RATIO),
    /** Likewise of the boosted gauge. */
    BOOSTED_BREAKS("boosted_breaks", Unit.RATIO),
    /** Of a stop, and of no start: in which the pressure falls from 90 to 40 %. */
    FALL("fall_s", Unit.TIME);

    /** What a measurand's numbers are in. */
    public enum Unit {
        /** Gauge psi. */
        PRESSURE,
        /** Psi per second. */
        PRESSURE_RATE,
        /** Seconds. */
        TIME,
        /** A plain number. */
        RATIO,
        PERCENT,
        /** Hertz. */
        FREQUENCY
    }

    private final String key;
    private final Unit unit;

    Measurand(String key, Unit unit) {
        this.key = key;
        this.unit = unit;
    }

    /** Its name in JSON and in the store, such as {@code rise_s}. */
    public String key() {
        return key;
    }

    public Unit unit() {
        return unit;
    }

    public static Optional<Measurand> byKey(String key) {
        for (Measurand measurand : values()) {
            if (measurand.key.equals(key)) {
                return Optional.of(measurand);
            }
        }
        return Optional.empty();
    }
}
