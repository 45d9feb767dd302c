package leat.diagnose;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Figure;
import leat.measure.RestSpell;
import leat.measure.absence.Absence;
import leat.rule.Baseline;
import leat.rule.Usual;

/**
 * What is usual: for the machine as far as it is known, else for sound machines in general. A
 * machine's own few starts and what is so of machines in general are put together by Bayes' rule
 * for normal distributions. Immutable.
 */
public final class Reference {

    /**
     * @param middle of the feature, on its scale
     * @param doubt standard deviation of that middle
     * @param within standard deviation from start to start
     */
    record Expected(double middle, double doubt, double within) {}

    /** What starts of one machine scatter by is that of the feature. */
    private static final double SMALLEST = 1e-6;

    private final int known;
    private final Map<Feature, Expected> expected = new EnumMap<>(Feature.class);

    private Reference(int known) {
        this.known = known;
    }

    /** Machines in general. */
    public static Reference general() {
        return of(Optional.empty());
    }

    /** A machine whose baseline is known, or is still learned. */
    public static Reference of(Optional<Baseline> baseline) {
        Reference reference = new Reference(baseline.map(Baseline::count).orElse(0));
        for (Feature feature : Feature.values()) {
            reference.expected.put(
                    feature,
                    baseline.flatMap(own -> usual(feature, own))
                            .map(usual -> own(feature, usual))
                            .orElseGet(() -> general(feature)));
        }
        return reference;
    }

    /** A machine of which these observations are known to be sound. */
    public static Reference of(List<Observation> sound) {
        Reference reference = new Reference(sound.size());
        for (Feature feature : Feature.values()) {
            double[] values =
                    sound.stream()
                            .map(one -> figure(feature, one))
                            .filter(Figure::isPresent)
                            .mapToDouble(Figure::get)
                            .sorted()
                            .toArray();
            reference.expected.put(
                    feature,
                    values.length == 0
                            ? general(feature)
                            : own(
                                    feature,
                                    new Usual(values[values.length / 2], SMALLEST, values.length)));
        }
        return reference;
    }

    private static Figure figure(Feature feature, Observation one) {
        return switch (feature.of()) {
            case START -> one.ofStart(feature.measurand());
            case RUN -> one.ofRun(feature.measurand());
            case REST ->
                    one.rest()
                            .map(RestSpell::fallSeconds)
                            .orElseGet(() -> Figure.absent(Absence.NOT_LOOKED_AT));
        };
    }

    private static Optional<Usual> usual(Feature feature, Baseline own) {
        return switch (feature.of()) {
            case RUN ->
                    Optional.ofNullable(own.runs().get(feature.measurand()))
                            .or(() -> own.usual(feature.measurand()));
            case START, REST -> own.usual(feature.measurand());
        };
    }

    private static Expected general(Feature feature) {
        return new Expected(onScale(feature, feature.general()), feature.among(), feature.within());
    }

    private static Expected own(Feature feature, Usual usual) {
        double spread =
                feature.scale() == Feature.Scale.LOGARITHM
                        ? usual.spread() / Math.max(1e-6, Math.abs(usual.median()))
                        : usual.spread();
        double within = Math.max(feature.within(), spread);
        double precision =
                1 / (feature.among() * feature.among()) + usual.count() / (within * within);
        double middle =
                (onScale(feature, feature.general()) / (feature.among() * feature.among())
                                + onScale(feature, usual.median())
                                        * usual.count()
                                        / (within * within))
                        / precision;
        return new Expected(middle, 1 / Math.sqrt(precision), within);
    }

    static double onScale(Feature feature, double value) {
        return feature.scale() == Feature.Scale.LOGARITHM ? Math.log(Math.max(1e-3, value)) : value;
    }

    Expected expected(Feature feature) {
        return expected.get(feature);
    }

    /** How many sound starts of the machine it rests on. */
    public int known() {
        return known;
    }
}
