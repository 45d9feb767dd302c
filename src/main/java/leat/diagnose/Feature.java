package leat.diagnose;

import java.util.Optional;
import leat.measure.Measurand;
import leat.signal.Keyword;

/**
 * A number of an observation that tells causes apart, with what it is on sound machines in general.
 * Figures of machines in general are of the bench and of common practice; each machine's own
 * replace them as they become known. Keys are part of JSON and of the table of weights.
 */
public enum Feature {
    RISE(Of.START, Measurand.RISE, Scale.LOGARITHM, 1.4, 0.45, 0.1),
    RISE_FROM_INLET(Of.START, Measurand.RISE_FROM_INLET, Scale.LOGARITHM, 0.9, 0.6, 0.12),
    BOOST_RATE(Of.START, Measurand.BOOST_RATE, Scale.LOGARITHM, 60, 0.6, 0.12),
    TIME_TO_LEVEL(Of.START, Measurand.TIME_TO_LEVEL, Scale.LOGARITHM, 1.4, 0.5, 0.1),
    DEAD(Of.START, Measurand.DEAD, Scale.LINEAR, 0.7, 0.4, 0.1),
    INLET_REST(Of.START, Measurand.INLET_REST, Scale.LINEAR, 45, 9, 2),
    INLET_SAG(Of.START, Measurand.INLET_SAG, Scale.LINEAR, 3.5, 2, 0.6),
    INLET_DIP(Of.START, Measurand.INLET_DIP, Scale.LINEAR, 12, 8, 2),
    UNLOADED(Of.START, Measurand.UNLOADED, Scale.LINEAR, 100, 9, 1.5),
    DROP(Of.START, Measurand.DROP, Scale.LINEAR, 4, 3, 0.8),
    RIPPLE(Of.START, Measurand.RIPPLE, Scale.LOGARITHM, 2, 0.6, 0.2),
    WANDER(Of.RUN, Measurand.WANDER, Scale.LOGARITHM, 0.4, 0.5, 0.25),
    LOADED(Of.RUN, Measurand.LOADED, Scale.LINEAR, 98, 9, 1.5),
    INLET(Of.RUN, Measurand.INLET_RUNNING, Scale.LINEAR, 41, 9, 2),
    RATIO(Of.RUN, Measurand.RATIO, Scale.LOGARITHM, 2.4, 0.2, 0.05),
    FILTER_LOSS(Of.RUN, Measurand.FILTER_LOSS, Scale.LINEAR, 2, 1, 0.3),
    FALL(Of.REST, Measurand.FALL, Scale.LOGARITHM, 4, 0.7, 0.15);

    /** Of which part of an observation it is. */
    public enum Of {
        START,
        RUN,
        REST
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

    /** The number that people know it by; its unit is that of {@link Reason#value}. */
    public Measurand measurand() {
        return measurand;
    }

    Of of() {
        return of;
    }

    Scale scale() {
        return scale;
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
}
