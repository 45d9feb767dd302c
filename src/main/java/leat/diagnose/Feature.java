package leat.diagnose;

import java.util.Optional;
import leat.measure.Measurand;
import leat.signal.Keyword;

/**
 * A number of one observation, or of several together, that tells causes apart, with what it is on
 * sound machines in general. Figures of machines in general are of model runs, wider than these
 * were among machines, for no model has all machines; each machine's own replace them as they
 * become known. Keys are part of JSON and of the table of weights.
 */
public enum Feature {
    RISE(Of.START, Measurand.RISE, Scale.LOGARITHM, 1.5, 0.45, 0.06),
    RISE_FROM_INLET(Of.START, Measurand.RISE_FROM_INLET, Scale.LOGARITHM, 0.9, 0.6, 0.09),
    BOOST_RATE(Of.START, Measurand.BOOST_RATE, Scale.LOGARITHM, 60, 0.6, 0.07),
    START_TO_90(Of.START, Measurand.START_TO_90, Scale.LOGARITHM, 2, 0.45, 0.06),
    TIME_TO_LEVEL(Of.START, Measurand.TIME_TO_LEVEL, Scale.LOGARITHM, 1.3, 0.5, 0.05),
    DEAD(Of.START, Measurand.DEAD, Scale.LINEAR, 0.3, 0.35, 0.06),
    /** What the boosted gauge reads before the start. */
    BASE(Of.START, Measurand.BASE, Scale.LINEAR, 0, 0.8, 0.3),
    /** Where the inlet gauge sits before the valve: the supply with nothing drawn. */
    INLET_REST(Of.START, Measurand.INLET_REST, Scale.LINEAR, 45, 10, 1.2),
    /** Where it sits behind the valve: what it reads when that is shut. */
    INLET_DRAINED(Of.START, Measurand.INLET_REST, Scale.LINEAR, 0, 0.8, 0.3),
    INLET_SAG(Of.START, Measurand.INLET_SAG, Scale.LINEAR, 3.5, 2.2, 0.8),
    INLET_DIP(Of.START, Measurand.INLET_DIP, Scale.LINEAR, 20, 12, 1.2),
    UNLOADED(Of.START, Measurand.UNLOADED, Scale.LINEAR, 103, 13, 0.8),
    DROP(Of.START, Measurand.DROP, Scale.LINEAR, 4, 3, 0.6),
    /** As {@link #DROP}, also where the strokes begin before there is a level to drop from. */
    PEAK_DROP(Of.START, Measurand.PEAK_DROP, Scale.LINEAR, 6, 3, 0.8),
    OVERSHOOT(Of.START, Measurand.OVERSHOOT, Scale.LINEAR, 1, 1.5, 0.8),
    RIPPLE(Of.START, Measurand.RIPPLE, Scale.LOGARITHM, 1.6, 0.6, 0.12),
    /** Of the seconds after the climb; {@link #WANDER} is that of the whole run. */
    START_WANDER(Of.START, Measurand.WANDER, Scale.LOGARITHM, 0.4, 0.8, 0.3),
    WANDER(Of.RUN, Measurand.WANDER, Scale.LOGARITHM, 0.6, 0.8, 0.4),
    INLET_WANDER(Of.RUN, Measurand.INLET_WANDER, Scale.LOGARITHM, 0.4, 0.8, 0.4),
    INLET_RIPPLE(Of.RUN, Measurand.INLET_RIPPLE, Scale.LOGARITHM, 0.8, 0.8, 0.15),
    SWAY(Of.RUN, Measurand.SWAY, Scale.LINEAR, 0.85, 0.25, 0.2),
    LOADED(Of.RUN, Measurand.LOADED, Scale.LINEAR, 100, 13, 1),
    /** Of the run as a whole, whatever was drawn. */
    LEVEL(Of.RUN, Measurand.TOP, Scale.LINEAR, 102, 13, 1.2),
    /**
     * With the jet off; where it was never off the peak of the start, and where that was not seen
     * the level of the run as a whole.
     */
    HIGHEST(Of.RUN, Measurand.UNLOADED, Scale.LINEAR, 104, 13, 1.2),
    /** Level of the run with the jet off less that with it on. */
    RUN_DROP(Of.RUN, Measurand.DROP, Scale.LINEAR, 4, 3, 0.6),
    INLET(Of.RUN, Measurand.INLET_RUNNING, Scale.LINEAR, 42, 10, 1.2),
    RATIO(Of.RUN, Measurand.RATIO, Scale.LOGARITHM, 2.4, 0.2, 0.025),
    /** Loaded level less inlet: what the booster gives, also where the inlet has none. */
    LIFT(Of.RUN, Measurand.LOADED, Scale.LINEAR, 58, 10, 1.2),
    /** By how much boosted over inlet falls short of 1.3: hardly any boost, whatever is usual. */
    UNBOOSTED(Of.RUN, Measurand.RATIO, Scale.LINEAR, 0, 0.02, 0.02),
    FILTER_LOSS(Of.RUN, Measurand.FILTER_LOSS, Scale.LINEAR, 1.8, 1.1, 0.3),
    FALL(Of.REST, Measurand.FALL, Scale.LOGARITHM, 3, 0.9, 0.08),
    /** What the boosted gauge reads when the line has come to rest. */
    REST_PRESSURE(Of.REST, Measurand.BASE, Scale.LINEAR, 0, 0.8, 0.3),
    /** That as a share of what the inlet gauge reads meanwhile. */
    REST_SHARE(Of.REST, Measurand.RATIO, Scale.LINEAR, 0, 0.02, 0.008),
    /** 1 of a start that reached no level, 0 of one that did. */
    NOT_RISEN(Of.START, Measurand.RATIO, Scale.LINEAR, 0, 0.05, 0.05),
    /** Standard deviation of the loaded level from start to start. */
    LEVEL_SCATTER(Of.SEVERAL, Measurand.WANDER, Scale.LINEAR, 0.8, 0.5, 0.4),
    /** How many times quicker the last start was than the first. */
    QUICKER(Of.SEVERAL, Measurand.RATIO, Scale.LOGARITHM, 1, 0.02, 0.15);

    /** Of which part of an observation it is. */
    public enum Of {
        START,
        RUN,
        REST,
        /** Of several observations together. */
        SEVERAL
    }

    /** How differences of it are counted. */
    public enum Scale {
        /** In its unit. */
        LINEAR,
        /** By factors. */
        LOGARITHM
    }

    private final Of of;
    private final Measurand measurand;
    private final Scale scale;
    private final double general;
    private final double among;
    private final double within;

    /**
     * @param general middle of sound machines, in the unit of the measurand
     * @param among standard deviation from machine to machine, in the unit or as a logarithm
     * @param within standard deviation from start to start of one machine, likewise
     */
    Feature(Of of, Measurand measurand, Scale scale, double general, double among, double within) {
        this.of = of;
        this.measurand = measurand;
        this.scale = scale;
        this.general = general;
        this.among = among;
        this.within = within;
    }

    /** Such as {@code boost-rate}. */
    public String key() {
        return Keyword.of(this);
    }

    public static Optional<Feature> byKey(String key) {
        for (Feature feature : values()) {
            if (feature.key().equals(key)) {
                return Optional.of(feature);
            }
        }
        return Optional.empty();
    }

    /** The number that people know it by, or one in the same unit: that of {@link Reason#value}. */
    public Measurand measurand() {
        return measurand;
    }

    Of of() {
        return of;
    }

    double general() {
        return general;
    }

    double among() {
        return among;
    }

    double within() {
        return within;
    }

    /** A value as differences of it are counted. */
    double onScale(double value) {
        return scale == Scale.LOGARITHM ? Math.log(Math.max(1e-3, value)) : value;
    }

    /** A difference of its unit as differences are counted, at that value. */
    double onScale(double difference, double at) {
        return scale == Scale.LOGARITHM ? difference / Math.max(1e-3, Math.abs(at)) : difference;
    }

    /** The value that stands at a place of the scale. */
    double offScale(double place) {
        return scale == Scale.LOGARITHM ? Math.exp(place) : place;
    }
}
