package leat.diagnose;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;

/**
 * Fits {@code weights.properties} to played runs.
 *
 * <pre>
 * java -cp ... leat.diagnose.FitWeights FILE... --to src/main/resources/leat/diagnose/weights.properties
 *
 * --penalty X   on squares of weights; 0.00002
 * --rounds N    80
 * --healthy X   how much more a sound example counts; 24
 * --free        without the signs of the table, to see what they cost
 * </pre>
 */
final class FitWeights {

    /** What only findings about signals tell. */
    static final Set<Cause> BY_SIGNAL =
            Set.of(Cause.OPEN_LOOP, Cause.LOOSE_LOOP, Cause.STUCK, Cause.CONFIGURATION);

    /** What a trouble of which gauges without noise show nothing counts beside one that shows. */
    private static final double NOTHING_SHOWS = 0.15;

    /** The less is known of a sound machine, the more only caution tells it from a slight fault. */
    private static final double STRANGER = 7;

    private static final int[] KNOWN = {0, 2, 5, 10};

    private FitWeights() {}

    public static void main(String[] arguments) throws IOException {
        Options options = Options.of(arguments);
        List<PlayedRun> runs = MachinesFor.TUNING.only(PlayedRuns.of(options));
        Weights weights = fit(runs, options);
        Files.writeString(
                Path.of(options.text("--to", "/tmp/weights.properties")), written(weights));
    }

    static Weights fit(List<PlayedRun> runs, Options options) {
        SoftmaxFit fit =
                new SoftmaxFit(options.number("--penalty", 0.00002), !options.has("--free"));
        double healthy = options.number("--healthy", 24);
        for (Example one : examples(runs, 7)) {
            // what is a little air to the bench is much to the rough model
            boolean airy =
                    one.of().make() == PlayedRun.Make.ROUGH && one.of().deed().equals("serviced");
            if (!BY_SIGNAL.contains(one.cause()) && !airy) {
                double weight =
                        one.cause() == Cause.HEALTHY
                                ? healthy * (1 + STRANGER / (1 + one.sound().size()))
                                : one.plain() == 0 ? NOTHING_SHOWS : 1;
                fit.add(one.cause(), weight, one.evidence());
            }
        }
        System.out.println(fit.size() + " examples");
        return fit.fit((int) options.number("--rounds", 80), 1);
    }

    /** Single runs and several together, with and without a known past. */
    static List<Example> examples(List<PlayedRun> runs, long seed) {
        List<Example> all = new ArrayList<>();
        Random random = new Random(seed);
        for (int known : KNOWN) {
            Example.single(runs, known, random.nextLong()).stream()
                    .filter(one -> random.nextDouble() < 0.5)
                    .forEach(all::add);
            all.addAll(Example.together(runs, known, random.nextLong(), 2));
            all.addAll(Example.together(runs, known, random.nextLong()));
        }
        return all;
    }

    static String written(Weights weights) {
        StringBuilder text =
                new StringBuilder(
                        """
                        # Fitted by leat.diagnose.FitWeights under the signs of CauseTable; never edit by hand.
                        # Of each row and feature: pieces above what is usual | pieces below it | that it
                        # is measured | what it says on average where the cause is there. Natural logarithms of odds.
                        """);
        text.append(
                String.format(
                        Locale.ROOT,
                        "temper=%.3f%ntemper-of-stranger=%.3f%noddness=%.2f%nper-oddity=%.2f%n",
                        weights.temper(Integer.MAX_VALUE - 1),
                        weights.temper(0),
                        weights.oddness(),
                        weights.perOddity()));
        for (Weights.OfRow row : weights.rows()) {
            text.append(
                    String.format(Locale.ROOT, "%s/prior=%.2f%n", row.row().key(), row.prior()));
            for (Feature feature : Feature.values()) {
                double[] pieces = row.pieces()[feature.ordinal()];
                double most = 0;
                for (double piece : pieces) {
                    most = Math.max(most, Math.abs(piece));
                }
                if (most >= 0.005) {
                    text.append(row.row().key()).append('/').append(feature.key()).append('=');
                    for (int i = 0; i < pieces.length; i++) {
                        text.append(i == Ramps.PIECES || i == Ramps.MEASURED ? "| " : "")
                                .append(String.format(Locale.ROOT, "%.2f ", pieces[i] + 0.0));
                    }
                    text.append(
                            String.format(Locale.ROOT, "| %.2f%n", row.shown()[feature.ordinal()]));
                }
            }
        }
        return text.toString();
    }
}
