package leat.diagnose;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.DoubleFunction;

/**
 * Tempers weights on machines that they were not fitted to, so that they are as often right as they
 * say: the one number that leaves the least logarithmic loss, for known machines and for strangers.
 *
 * <pre>
 * java -cp ... leat.diagnose.FitTemper FILE... --weights FILE
 * </pre>
 *
 * It writes the same file again.
 */
final class FitTemper {

    private static final double LOWEST = 0.2;
    private static final double HIGHEST = 1.6;
    private static final double STEP = 0.05;

    private FitTemper() {}

    public static void main(String[] arguments) throws IOException {
        Options options = Options.of(arguments);
        Weights weights = ConfusionTable.weights(options);
        List<PlayedRun> runs = MachinesFor.TEMPERING.only(PlayedRuns.of(options));
        List<Example> known = shown(runs, 10);
        double temper = best(known, with -> weights.tempered(with, with));
        double stranger = best(shown(runs, 0), with -> weights.tempered(temper, with));
        System.out.printf("temper %.2f, of a stranger %.2f%n", temper, stranger);
        Files.writeString(
                Path.of(options.text("--weights", "")),
                FitWeights.written(weights.tempered(temper, stranger)));
    }

    /** Troubles of which gauges without noise show nothing are left out. */
    private static List<Example> shown(List<PlayedRun> runs, int known) {
        return Example.single(runs, known, 5).stream()
                .filter(one -> !FitWeights.BY_SIGNAL.contains(one.cause()))
                .filter(one -> one.cause() == Cause.HEALTHY || one.plain() > 0)
                .toList();
    }

    private static double best(List<Example> examples, DoubleFunction<Weights> weights) {
        double best = 1;
        double least = Double.POSITIVE_INFINITY;
        for (double with = LOWEST; with <= HIGHEST; with += STEP) {
            Weights tried = weights.apply(with);
            double loss =
                    examples.stream()
                            .mapToDouble(
                                    one ->
                                            -Math.log(
                                                    1e-6
                                                            + ConfusionTable.weigh(one, tried)
                                                                    .getOrDefault(
                                                                            one.cause(), 0.0)))
                            .sum();
            if (loss < least) {
                least = loss;
                best = with;
            }
        }
        return best;
    }
}
