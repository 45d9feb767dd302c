package leat.diagnose;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.rule.Baseline;
import leat.rule.Usual;

/**
 * What is usual: for the machine as far as it is known, else for sound machines in general. A
 * machine's own few starts and what is so of machines in general are put together by Bayes' rule
 * for normal distributions, so that with few starts the usual is less sure. Immutable.
 */
public final class Reference {

    /**
     * What is known of the scatter of machines in general counts like so many starts; own choice.
     */
    private static final double GENERAL_STARTS = 8;

    /**
     * @param middle of the feature, on its scale
     * @param doubt standard deviation of that middle
     * @param within standard deviation from start to start
     */
    record Expected(double middle, double doubt, double within) {}

    private final int known;
    private final InletGauge inletGauge;
    private final Map<Feature, Expected> expected = new EnumMap<>(Feature.class);

    private Reference(int known, InletGauge inletGauge) {
        this.known = known;
        this.inletGauge = inletGauge;
    }

    /** Machines in general. */
    public static Reference general() {
        return of(Optional.empty());
    }

    /** A machine whose baseline is known, or is still learned. */
    public static Reference of(Optional<Baseline> baseline) {
        Reference reference =
                new Reference(
                        baseline.map(Baseline::count).orElse(0),
                        baseline.map(Reference::inletGauge).orElse(InletGauge.NONE));
        for (Feature feature : Feature.values()) {
            reference.expected.put(
                    feature,
                    baseline.flatMap(own -> usual(feature, own, reference.inletGauge))
                            .map(usual -> own(feature, usual))
                            .orElseGet(() -> general(feature)));
        }
        return reference;
    }

    /** A machine of which these observations are known to be sound. */
    public static Reference of(List<Observation> sound) {
        InletGauge gauge = InletGauge.seenIn(sound);
        Reference reference = new Reference(sound.size(), gauge);
        for (Feature feature : Feature.values()) {
            double[] places =
                    sound.stream()
                            .map(one -> FeatureReader.of(feature, one, gauge))
                            .filter(Figure::isPresent)
                            .mapToDouble(figure -> feature.onScale(figure.get()))
                            .sorted()
                            .toArray();
            reference.expected.put(
                    feature, places.length == 0 ? general(feature) : own(feature, places));
        }
        return reference;
    }

    private static Optional<Usual> usual(Feature feature, Baseline own, InletGauge gauge) {
        boolean drained = gauge == InletGauge.BEHIND_VALVE;
        return switch (feature) {
            case INLET_REST, INLET_SAG, INLET_DIP ->
                    drained ? Optional.empty() : own.usual(feature.measurand());
            case INLET_DRAINED -> drained ? own.usual(Measurand.INLET_REST) : Optional.empty();
            case LIFT -> less(Measurand.LOADED, Measurand.INLET_RUNNING, own);
            case HIGHEST ->
                    ofRun(Measurand.UNLOADED, own)
                            .or(() -> own.usual(Measurand.PEAK))
                            .or(() -> ofRun(Measurand.TOP, own));
            case RUN_DROP -> less(Measurand.UNLOADED, Measurand.LOADED, own);
            case UNBOOSTED, NOT_RISEN, REST_SHARE, LEVEL_SCATTER, QUICKER -> Optional.empty();
            default ->
                    feature.of() == Feature.Of.RUN
                            ? ofRun(feature.measurand(), own)
                            : own.usual(feature.measurand());
        };
    }

    private static InletGauge inletGauge(Baseline own) {
        Optional<Usual> rest = own.usual(Measurand.INLET_REST);
        Optional<Usual> running = ofRun(Measurand.INLET_RUNNING, own);
        return rest.isEmpty() || running.isEmpty()
                ? InletGauge.NONE
                : InletGauge.of(rest.get().median(), running.get().median());
    }

    private static Optional<Usual> ofRun(Measurand measurand, Baseline own) {
        return Optional.ofNullable(own.runs().get(measurand)).or(() -> own.usual(measurand));
    }

    private static Optional<Usual> less(Measurand one, Measurand other, Baseline own) {
        return ofRun(one, own).flatMap(a -> ofRun(other, own).map(b -> less(a, b)));
    }

    private static Usual less(Usual one, Usual other) {
        return new Usual(
                one.median() - other.median(),
                Math.hypot(one.spread(), other.spread()),
                Math.min(one.count(), other.count()));
    }

    private static Expected general(Feature feature) {
        return new Expected(feature.onScale(feature.general()), feature.among(), feature.within());
    }

    private static Expected own(Feature feature, Usual usual) {
        double spread = feature.onScale(usual.spread(), usual.median());
        return own(
                feature,
                feature.onScale(usual.median()),
                (usual.count() - 1) * spread * spread,
                usual.count());
    }

    /**
     * @param places values on the scale of the feature, sorted
     */
    private static Expected own(Feature feature, double[] places) {
        int half = places.length / 2;
        double middle =
                places.length % 2 == 1 ? places[half] : (places[half - 1] + places[half]) / 2;
        double squares = Arrays.stream(places).map(p -> (p - middle) * (p - middle)).sum();
        return own(feature, middle, squares, places.length);
    }

    private static Expected own(Feature feature, double middle, double squares, int count) {
        double general = feature.within() * feature.within();
        double variance = (GENERAL_STARTS * general + squares) / (GENERAL_STARTS + count - 1);
        double amongMachines = 1 / (feature.among() * feature.among());
        double ofStarts = count / variance;
        double precision = amongMachines + ofStarts;
        return new Expected(
                (feature.onScale(feature.general()) * amongMachines + middle * ofStarts)
                        / precision,
                1 / Math.sqrt(precision),
                Math.sqrt(variance));
    }

    Expected expected(Feature feature) {
        return expected.get(feature);
    }

    /** Where its inlet gauge sits, as far as sound starts show it. */
    InletGauge inletGauge() {
        return inletGauge;
    }

    /** How many sound starts of the machine it rests on. */
    public int known() {
        return known;
    }
}
