package leat.watch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import leat.bench.line.Fault;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import leat.measure.Startup;

/**
 * How far a startup's figures lie from the truth of the bench, which is without noise, lag and
 * converter and has a hundred samples a second. Run {@link #main} for the table.
 */
final class RiseAccuracyTable {

    private static final double STARTED = 10;
    private static final double STOPPED = 45;
    private static final int TRUTH_HZ = 100;

    /** A condition of the line, and whether its startups are judged by the bounds of the test. */
    enum Condition {
        HEALTHY(Fault.AIR, 0, 0),
        WORN(Fault.WORN_BOOSTER, 0.45, 0.72),
        AIR(Fault.AIR, 0.15, 1),
        SET_HIGH(Fault.SET_TOO_HIGH, 0.3, 1);

        private final Fault fault;
        private final double least;
        private final double most;

        Condition(Fault fault, double least, double most) {
            this.fault = fault;
            this.least = least;
            this.most = most;
        }

        Scenario scenario(int number) {
            double share = number % 5 / 4.0;
            double supply = 30 + number * 11 % 31;
            Plays play = Plays.of(supply, 100, number);
            if (most > 0) {
                play.strike(0, fault, least + share * (most - least));
            }
            return play.run(STARTED, STOPPED).until(STOPPED + 1);
        }
    }

    /** How a line is read. */
    enum Sampling {
        AT_20_HZ,
        AT_10_HZ,
        NOISY_AT_20_HZ;

        BenchFeed feed(Scenario scenario, int number) {
            BenchFeed feed = BenchFeed.of(scenario).wiring(BenchFeed.Wiring.RUNNING);
            return switch (this) {
                case AT_20_HZ -> feed;
                case AT_10_HZ -> feed.hz(10);
                case NOISY_AT_20_HZ -> feed.noise(1.2, number);
            };
        }
    }

    /**
     * How far one startup's figures are off.
     *
     * @param riseSeconds true 10 to 90 % rise
     * @param riseOff measured minus true, seconds
     * @param topOff measured minus true, psi
     * @param ratioOffPercent measured minus true, percent of true
     */
    record Off(
            String which,
            double riseSeconds,
            double riseOff,
            double topOff,
            double ratioOffPercent) {

        /** The rise's error as a share of what is allowed: 5 % or 100 ms. */
        double riseShare() {
            return Math.abs(riseOff) / Math.max(0.1, 0.05 * riseSeconds);
        }
    }

    private RiseAccuracyTable() {}

    static List<Off> offs(Condition condition, Sampling sampling, int seeds) {
        List<Off> offs = new ArrayList<>();
        for (int number = 1; number <= seeds; number++) {
            Scenario scenario = condition.scenario(number);
            List<Startup> startups = sampling.feed(scenario, number).told().startups;
            if (startups.size() != 1) {
                throw new IllegalStateException(
                        condition + " " + number + ": " + startups.size() + " startups");
            }
            offs.add(off(condition + " " + sampling + " " + number, scenario, startups.get(0)));
        }
        return offs;
    }

    private static Off off(String which, Scenario scenario, Startup startup) {
        double measuredAt = (startup.measuredAtMicros() - BenchFeed.START) / 1e6;
        List<Sample> truth = truth(scenario, measuredAt);
        double base = median(truth, STARTED - 5, STARTED - 0.01, true);
        double top = median(truth, measuredAt - 3, measuredAt, true);
        double inlet = median(truth, measuredAt - 3, measuredAt, false);
        double t90 = crossing(truth, base + 0.9 * (top - base));
        double t10 = crossing(truth, base + 0.1 * (top - base));
        return new Off(
                which,
                t90 - t10,
                startup.riseSeconds().get() - (t90 - t10),
                startup.topPsi().get() - top,
                (startup.ratio().get() / (top / inlet) - 1) * 100);
    }

    private static List<Sample> truth(Scenario scenario, double untilSecond) {
        ScenarioRun run = new ScenarioRun(scenario, TRUTH_HZ);
        List<Sample> samples = new ArrayList<>();
        while (run.nextMicros() <= untilSecond * 1e6) {
            samples.add(run.next().get(0));
        }
        return samples;
    }

    private static double median(List<Sample> truth, double from, double to, boolean boosted) {
        double[] values =
                truth.stream()
                        .filter(s -> s.seconds() >= from && s.seconds() <= to)
                        .mapToDouble(s -> boosted ? s.truth().boostedPsi() : s.truth().inletPsi())
                        .toArray();
        Arrays.sort(values);
        return (values[values.length / 2] + values[(values.length - 1) / 2]) / 2;
    }

    private static double crossing(List<Sample> truth, double level) {
        for (int i = 1; i < truth.size(); i++) {
            double before = truth.get(i - 1).truth().boostedPsi();
            double now = truth.get(i).truth().boostedPsi();
            if (truth.get(i).seconds() > STARTED && before < level && now >= level) {
                double share = (level - before) / (now - before);
                return truth.get(i - 1).seconds() + share / TRUTH_HZ;
            }
        }
        throw new IllegalStateException("the truth never reaches " + level);
    }

    /** Prints the worst case of each condition and sampling. */
    public static void main(String[] args) {
        int seeds = args.length == 0 ? 60 : Integer.parseInt(args[0]);
        System.out.printf(
                "%-26s %9s %9s %9s %9s   worst rise%n",
                "worst of " + seeds, "rise ms", "of bound", "top psi", "ratio %");
        for (Condition condition : Condition.values()) {
            for (Sampling sampling : Sampling.values()) {
                List<Off> offs = offs(condition, sampling, seeds);
                Off worst =
                        offs.stream()
                                .max((a, b) -> Double.compare(a.riseShare(), b.riseShare()))
                                .orElseThrow();
                System.out.printf(
                        Locale.ROOT,
                        "%-26s %9.0f %9.2f %9.2f %9.2f   %s: true %.2f s%n",
                        condition + " " + sampling,
                        offs.stream().mapToDouble(o -> Math.abs(o.riseOff())).max().orElse(0) * 1e3,
                        worst.riseShare(),
                        offs.stream().mapToDouble(o -> Math.abs(o.topOff())).max().orElse(0),
                        offs.stream()
                                .mapToDouble(o -> Math.abs(o.ratioOffPercent()))
                                .max()
                                .orElse(0),
                        worst.which(),
                        worst.riseSeconds());
            }
        }
    }
}
