package leat.diagnose;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * What one diagnosis costs: of single runs, and of all runs of a case together, each beside ten
 * sound starts. It judges nothing.
 *
 * <pre>
 * java -cp ... leat.diagnose.WhySpeed FILE
 * </pre>
 */
final class WhySpeed {

    private static final int MOST = 2_000;

    private WhySpeed() {}

    public static void main(String[] arguments) throws IOException {
        List<PlayedRun> runs = PlayedRuns.of(Options.of(arguments));
        time("single runs", Example.single(runs, 10, 1));
        time("runs together", Example.together(runs, 10, 1));
    }

    private static void time(String what, List<Example> examples) {
        List<Example> some = examples.subList(0, Math.min(MOST, examples.size()));
        double[] millis = new double[some.size()];
        double kept = 0;
        for (int i = 0; i < millis.length; i++) {
            Example one = some.get(i);
            Reference reference = one.reference();
            long from = System.nanoTime();
            kept +=
                    Diagnostician.why(one.seen(), reference, Priors.NONE, List.of())
                            .first()
                            .weight();
            millis[i] = (System.nanoTime() - from) / 1e6;
        }
        Arrays.sort(millis);
        System.out.printf(
                Locale.ROOT,
                "%s: %d diagnoses, median %.3f ms, 99 %% within %.3f ms, longest %.3f ms (%.0f)%n",
                what,
                millis.length,
                millis[millis.length / 2],
                millis[millis.length * 99 / 100],
                millis[millis.length - 1],
                kept);
    }
}
