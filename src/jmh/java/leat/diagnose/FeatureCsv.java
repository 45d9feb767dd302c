package leat.diagnose;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Writes what a diagnosis goes by as a table with one line for each example, so that a general
 * classifier can be tried on the same: of each feature its sureness, excess and sharpness; empty
 * where it was not seen. {@code src/jmh/python/general_classifier.py} reads it.
 *
 * <pre>
 * java -cp ... leat.diagnose.FeatureCsv FILE... --to FILE.csv [--known N] [--together] [--fit]
 *
 * --fit   the examples that weights are fitted to, instead of those that are judged
 * </pre>
 */
final class FeatureCsv {

    private FeatureCsv() {}

    public static void main(String[] arguments) throws IOException {
        Options options = Options.of(arguments);
        List<PlayedRun> runs = PlayedRuns.of(options);
        int known = (int) options.number("--known", 10);
        List<Example> examples =
                options.has("--fit")
                        ? FitWeights.examples(runs, 7)
                        : options.has("--together")
                                ? Example.together(runs, known, 3)
                                : Example.single(runs, known, 3);
        try (PrintWriter out =
                new PrintWriter(
                        Files.newBufferedWriter(Path.of(options.text("--to", "/tmp/x.csv"))))) {
            out.print("cause,plain,deed");
            for (Feature feature : Feature.values()) {
                out.print("," + feature.key() + ":sure,");
                out.print(feature.key() + ":excess," + feature.key() + ":sharp");
            }
            out.println();
            for (Example one : examples) {
                if (!FitWeights.BY_SIGNAL.contains(one.cause())) {
                    out.println(line(one));
                }
            }
        }
    }

    private static String line(Example one) {
        Map<Feature, Evidence> evidence =
                one.evidence().stream().collect(Collectors.toMap(Evidence::feature, each -> each));
        List<String> cells = new ArrayList<>();
        cells.add(one.cause().key());
        cells.add("" + one.plain());
        cells.add(one.of().deed());
        for (Feature feature : Feature.values()) {
            Evidence each = evidence.get(feature);
            cells.add(each == null ? "" : number(each.sureness()));
            cells.add(each == null ? "" : number(each.excess()));
            cells.add(each == null ? "" : number(each.sharpness()));
        }
        return String.join(",", cells);
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.4g", value);
    }
}
