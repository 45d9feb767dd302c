package leat.diagnose;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;

/**
 * How often a diagnosis is right, on played runs of machines that tuning never used: per cause, by
 * how plainly the gauges show it; first and within the first two; how often a sound machine is
 * accused; how often a weight is as good as it says. It judges nothing.
 *
 * <pre>
 * java -cp ... leat.diagnose.ConfusionTable FILE...
 *
 * --weights FILE  instead of those that leat is delivered with
 * --known N       with so many sound starts of the machine known; else with 0, 2, 5 and 10
 * --together N    the first N runs of a case at once, instead of one by one
 * --matrix        what each cause was called
 * --trial         also machines that are not for judging, such as those kept back while tuning
 * </pre>
 */
final class ConfusionTable {

    private static final int GRADES = 4;
    private static final int BANDS = 10;

    /** One answer. */
    record Said(Example example, Map<Cause, Double> weights) {

        boolean isRight() {
            return ranked().get(0) == example.cause();
        }

        List<Cause> ranked() {
            return weights.entrySet().stream()
                    .sorted(Map.Entry.<Cause, Double>comparingByValue(Comparator.reverseOrder()))
                    .map(Map.Entry::getKey)
                    .toList();
        }
    }

    private final List<Said> said = new ArrayList<>();

    public static void main(String[] arguments) throws IOException {
        Options options = Options.of(arguments);
        Weights weights = weights(options);
        List<PlayedRun> runs = PlayedRuns.of(options);
        if (!options.has("--trial")) {
            MachinesFor.JUDGING.only(runs);
        }
        int[] knowns =
                options.has("--known")
                        ? new int[] {(int) options.number("--known", 10)}
                        : new int[] {0, 2, 5, 10};
        for (int known : knowns) {
            ConfusionTable table = new ConfusionTable();
            List<Example> examples =
                    options.has("--together")
                            ? Example.together(
                                    runs, known, 3, (int) options.number("--together", 2))
                            : Example.single(runs, known, 3);
            examples.forEach(one -> table.said.add(new Said(one, weigh(one, weights))));
            System.out.printf("%n== %d known sound starts, %d judged%n", known, examples.size());
            table.print(options.has("--matrix"));
        }
    }

    static Weights weights(Options options) throws IOException {
        if (!options.has("--weights")) {
            return Weights.published();
        }
        Properties texts = new Properties();
        try (Reader file = Files.newBufferedReader(Path.of(options.text("--weights", "")))) {
            texts.load(file);
        }
        return Weights.of(texts::getProperty, texts::containsKey);
    }

    static Map<Cause, Double> weigh(Example one, Weights weights) {
        List<SignalFact> facts = new ArrayList<>();
        one.seen().forEach(seen -> facts.addAll(seen.signals()));
        return SignalFacts.weigh(
                facts,
                new Ranking(one.evidence(), one.sound().size(), weights, Priors.NONE).causes());
    }

    /** Judges examples by the weights that leat is delivered with. */
    static ConfusionTable of(List<Example> examples) {
        ConfusionTable table = new ConfusionTable();
        examples.forEach(one -> table.said.add(new Said(one, weigh(one, Weights.published()))));
        return table;
    }

    /** Share of the causes that show grossly which are called first. */
    double grossRight() {
        List<Said> gross =
                said.stream()
                        .filter(one -> one.example().plain() == GRADES - 1)
                        .filter(one -> one.example().cause() != Cause.LOOSE_LOOP)
                        .toList();
        return gross.stream().filter(Said::isRight).count() / (double) gross.size();
    }

    /** How many sound runs are accused of something. */
    long accused() {
        return said.stream()
                .filter(one -> one.example().cause() == Cause.HEALTHY)
                .filter(one -> !one.isRight() && one.ranked().get(0) != Cause.UNKNOWN)
                .count();
    }

    private void print(boolean matrix) {
        Map<Cause, int[][]> counts = new EnumMap<>(Cause.class);
        Map<Cause, Map<Cause, Integer>> confusion = new EnumMap<>(Cause.class);
        Map<String, int[]> healthy = new java.util.TreeMap<>();
        for (Said one : said) {
            Cause truth = one.example().cause();
            List<Cause> ranked = one.ranked();
            int grade = one.example().plain();
            int[][] of = counts.computeIfAbsent(truth, c -> new int[GRADES][3]);
            of[grade][0]++;
            of[grade][1] += ranked.get(0) == truth ? 1 : 0;
            of[grade][2] += ranked.subList(0, Math.min(2, ranked.size())).contains(truth) ? 1 : 0;
            if (grade > 0 || truth == Cause.HEALTHY) {
                confusion
                        .computeIfAbsent(truth, c -> new EnumMap<>(Cause.class))
                        .merge(ranked.get(0), 1, Integer::sum);
            }
            if (truth == Cause.HEALTHY) {
                int[] h = healthy.computeIfAbsent(one.example().of().deed(), d -> new int[2]);
                h[0]++;
                h[1] += ranked.get(0) == Cause.HEALTHY || ranked.get(0) == Cause.UNKNOWN ? 0 : 1;
            }
        }
        System.out.printf(
                "%-19s %-19s %-19s %-19s %s%n",
                "", "gross n top1 top2", "middle", "mild", "nothing");
        int[][] sum = new int[GRADES][3];
        counts.forEach(
                (cause, of) -> {
                    System.out.printf("%-19s", cause.key());
                    for (int g = GRADES - 1; g >= 0; g--) {
                        System.out.print(" " + cell(of[g]));
                        for (int i = 0; i < 3 && cause != Cause.HEALTHY; i++) {
                            sum[g][i] += of[g][i];
                        }
                    }
                    System.out.println();
                });
        System.out.printf("%-19s", "all faults");
        for (int g = GRADES - 1; g >= 0; g--) {
            System.out.print(" " + cell(sum[g]));
        }
        System.out.println();
        healthy.forEach(
                (deed, h) ->
                        System.out.printf(
                                Locale.ROOT,
                                "  %s: accused %d of %d (%.2f %%)%n",
                                deed,
                                h[1],
                                h[0],
                                100.0 * h[1] / h[0]));
        reliability();
        if (matrix) {
            confusion.forEach((truth, row) -> System.out.println(truth.key() + ": " + row));
        }
    }

    private static String cell(int[] of) {
        return of[0] == 0
                ? String.format("%-19s", "")
                : String.format(
                        Locale.ROOT,
                        "%5d %5.1f %5.1f  ",
                        of[0],
                        100.0 * of[1] / of[0],
                        100.0 * of[2] / of[0]);
    }

    private void reliability() {
        double[][] bands = new double[BANDS][3];
        int judged = 0;
        for (Said one : said) {
            if (one.example().cause() != Cause.HEALTHY && one.example().plain() == 0) {
                continue; // nothing shows
            }
            judged++;
            Cause first = one.ranked().get(0);
            double weight = one.weights().get(first);
            double[] band = bands[Math.min(BANDS - 1, (int) (BANDS * weight))];
            band[0]++;
            band[1] += weight;
            band[2] += first == one.example().cause() ? 1 : 0;
        }
        double error = 0;
        StringBuilder line = new StringBuilder("given/right:");
        for (int b = 0; b < BANDS; b++) {
            if (bands[b][0] > 0) {
                error += Math.abs(bands[b][1] - bands[b][2]) / judged;
                line.append(
                        String.format(
                                Locale.ROOT,
                                "  %.0f/%.0f (%.0f)",
                                100 * bands[b][1] / bands[b][0],
                                100 * bands[b][2] / bands[b][0],
                                bands[b][0]));
            }
        }
        System.out.println(line);
        System.out.printf(Locale.ROOT, "expected calibration error %.4f%n", error);
    }
}
