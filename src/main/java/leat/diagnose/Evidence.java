package leat.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import leat.measure.Figure;

/**
 * One feature of what was seen, beside what is usual. Immutable.
 *
 * @param feature what was looked at
 * @param value what it was, mean of all observations, in the unit of the feature
 * @param usual what is usual, in the same unit
 * @param sureness by how many standard deviations it differs, of all that is uncertain in the value
 *     and in what is usual
 * @param excess by how much it differs beyond one such deviation, and beyond two of what is usual,
 *     counted in what sound starts of one machine differ by: how big the difference is at least
 * @param sharpness how well a difference would show, 0 to 1: less than 1 where what is usual, or
 *     the value itself, is less sure than sound starts of one machine are alike
 */
record Evidence(
        Feature feature,
        double value,
        double usual,
        double sureness,
        double excess,
        double sharpness) {

    private static final double NORMAL_95 = 1.96;

    /** Standard deviations within which what is usual for the machine may lie. */
    private static final double MAY_LIE = 2;

    /** All that these observations have, in the order of the features. */
    static List<Evidence> of(List<Observation> seen, Reference reference) {
        List<Evidence> all = new ArrayList<>();
        for (Feature feature : Feature.values()) {
            List<Figure> figures = figures(feature, seen, reference.inletGauge());
            if (!figures.isEmpty()) {
                all.add(of(feature, figures, reference.expected(feature), seen.size()));
            }
        }
        return all;
    }

    private static List<Figure> figures(Feature feature, List<Observation> seen, InletGauge gauge) {
        return feature.of() == Feature.Of.SEVERAL
                ? List.of(FeatureReader.of(feature, seen)).stream()
                        .filter(Figure::isPresent)
                        .toList()
                : seen.stream()
                        .map(one -> FeatureReader.of(feature, one, gauge))
                        .filter(Figure::isPresent)
                        .toList();
    }

    private static Evidence of(
            Feature feature, List<Figure> figures, Reference.Expected expected, int observations) {
        double mean = 0;
        double own = 0;
        for (Figure figure : figures) {
            mean += feature.onScale(figure.get()) / figures.size();
            double sd = figure.uncertainty().orElse(0) / NORMAL_95;
            own += Math.pow(feature.onScale(sd, figure.get()), 2) / figures.size();
        }
        double count = feature == Feature.LEVEL_SCATTER ? observations - 1 : figures.size();
        double variance = expected.within() * expected.within() + own;
        double sd = Math.sqrt(expected.doubt() * expected.doubt() + variance / count);
        double difference = mean - expected.middle();
        double beyond =
                Math.max(0, Math.abs(difference) - Math.max(sd, MAY_LIE * expected.doubt()))
                        / feature.within();
        return new Evidence(
                feature,
                feature.offScale(mean),
                feature.offScale(expected.middle()),
                difference / sd,
                Math.signum(difference) * beyond,
                Math.min(1, feature.within() / sd));
    }

    /** Empty where people need none to understand the value. */
    OptionalDouble usualForPeople() {
        return feature == Feature.NOT_RISEN ? OptionalDouble.empty() : OptionalDouble.of(usual);
    }
}
