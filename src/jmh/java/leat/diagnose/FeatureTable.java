package leat.diagnose;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import leat.measure.Figure;

/**
 * What each feature is on sound machines, from machine to machine and from start to start, as
 * {@link Feature} states it; and how far it goes under each cause, in standard deviations of sound
 * starts: 10, 50 and 90 % of runs that show the cause middling or grossly. It judges nothing.
 *
 * <pre>
 * java -cp ... leat.diagnose.FeatureTable FILE...
 * </pre>
 */
final class FeatureTable {

    private FeatureTable() {}

    public static void main(String[] arguments) throws IOException {
        List<PlayedRun> runs = PlayedRuns.of(Options.of(arguments));
        sound(runs);
        for (Feature feature : Feature.values()) {
            byCause(feature, runs);
        }
    }

    private static void sound(List<PlayedRun> runs) {
        System.out.printf("%-18s %9s %9s %9s%n", "sound", "general", "among", "within");
        for (Feature feature : Feature.values()) {
            List<Double> middles = new ArrayList<>();
            List<Double> spreads = new ArrayList<>();
            for (List<PlayedRun> machine : Example.byMachine(runs).values()) {
                double[] places =
                        machine.stream()
                                .filter(PlayedRun::isOwn)
                                .map(run -> FeatureReader.of(feature, run.seen(), InletGauge.NONE))
                                .filter(Figure::isPresent)
                                .mapToDouble(figure -> feature.onScale(figure.get()))
                                .toArray();
                if (places.length >= 5) {
                    double middle = share(places, 0.5);
                    middles.add(middle);
                    spreads.add(sd(places, middle));
                }
            }
            if (!middles.isEmpty()) {
                double[] all = middles.stream().mapToDouble(Double::doubleValue).toArray();
                double middle = share(all, 0.5);
                System.out.printf(
                        Locale.ROOT,
                        "%-18s %9.3f %9.3f %9.3f (%9.3f %9.3f %9.3f) of %d%n",
                        feature.key(),
                        feature.offScale(middle),
                        sd(all, middle),
                        Math.sqrt(spreads.stream().mapToDouble(s -> s * s).average().orElse(0)),
                        feature.general(),
                        feature.among(),
                        feature.within(),
                        all.length);
            }
        }
    }

    private static void byCause(Feature feature, List<PlayedRun> runs) {
        Map<Cause, List<Double>> values = new LinkedHashMap<>();
        Map<Cause, Integer> counts = new LinkedHashMap<>();
        List<Example> examples =
                feature.of() == Feature.Of.SEVERAL
                        ? Example.together(runs, 10, 1)
                        : Example.single(runs, 10, 1);
        for (Example one : examples) {
            if (one.cause() == Cause.HEALTHY || one.plain() >= 2) {
                counts.merge(one.cause(), 1, Integer::sum);
                one.evidence().stream()
                        .filter(e -> e.feature() == feature)
                        .forEach(
                                e ->
                                        values.computeIfAbsent(one.cause(), c -> new ArrayList<>())
                                                .add(
                                                        (feature.onScale(e.value())
                                                                        - feature.onScale(
                                                                                e.usual()))
                                                                / feature.within()));
            }
        }
        System.out.printf("%n%s%n", feature.key());
        values.forEach(
                (cause, list) -> {
                    double[] all = list.stream().mapToDouble(Double::doubleValue).toArray();
                    System.out.printf(
                            Locale.ROOT,
                            "  %-19s %7.1f %7.1f %7.1f  seen %3.0f %%%n",
                            cause.key(),
                            share(all, 0.1),
                            share(all, 0.5),
                            share(all, 0.9),
                            100.0 * all.length / counts.get(cause));
                });
    }

    private static double share(double[] values, double share) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[(int) Math.min(sorted.length - 1, share * sorted.length)];
    }

    private static double sd(double[] values, double middle) {
        return 1.4826 * share(Arrays.stream(values).map(v -> Math.abs(v - middle)).toArray(), 0.5);
    }
}
