package leat.watch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import leat.measure.ClimbRemark;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.Tick;

/**
 * How often the intervals that leat states hold the truth, for drawn machines of each kind, read
 * through noise and a 12-bit converter: share of the stated intervals that hold, median half width,
 * mean error, and why the others are absent. {@link TrueFigures} says what is true. Run {@link
 * #main} for the table.
 */
final class CoverageTable {

    private static final double COUNT_PSI = 200 / 16.0 * 20.5 / 4095;
    private static final double BEFORE_STOP_SECONDS = 0.5;

    /** The figures whose intervals are tried. */
    static final List<Measurand> FIGURES =
            List.of(
                    Measurand.TOP,
                    Measurand.UNLOADED,
                    Measurand.LOADED,
                    Measurand.RISE,
                    Measurand.INLET_RUNNING,
                    Measurand.RATIO);

    /** How a line is read. */
    enum Sampling {
        AT_20_HZ(20, 0.3),
        AT_10_HZ(10, 0.3),
        NOISY_AT_20_HZ(20, 0.7),
        NOISY_AT_10_HZ(10, 0.7);

        private final int hertz;
        private final double noisePsi;

        Sampling(int hertz, double noisePsi) {
            this.hertz = hertz;
            this.noisePsi = noisePsi;
        }
    }

    /** One figure beside the truth. */
    record Held(DrawnStart drawn, Measurand measurand, Figure figure, double truth) {

        /** Whether there is an interval and a truth to hold it against. */
        boolean isStated() {
            return figure.isPresent() && !Double.isNaN(truth);
        }

        boolean holds() {
            return Math.abs(error()) <= figure.uncertainty().orElse(0);
        }

        double error() {
            return figure.get() - truth;
        }
    }

    private CoverageTable() {}

    /** What leat states of one start, and what was true; empty where it measured none. */
    static List<Held> held(DrawnStart drawn, Sampling sampling) {
        Optional<Startup> found = startup(drawn, sampling);
        List<Held> all = new ArrayList<>();
        found.filter(Startup::risen).ifPresent(startup -> compare(drawn, startup, all));
        return all;
    }

    private static void compare(DrawnStart drawn, Startup startup, List<Held> all) {
        double measured = (startup.measuredAtMicros() - Line.START) / 1e6;
        TrueFigures truth =
                new TrueFigures(
                        drawn, Math.min(measured, drawn.stopSecond() - BEFORE_STOP_SECONDS));
        double top = top(startup, truth);
        boolean before =
                startup.figure(Measurand.UNLOADED).isPresent()
                        && !startup.figure(Measurand.LOADED).isPresent();
        for (Measurand measurand : FIGURES) {
            double value =
                    switch (measurand) {
                        case TOP -> top;
                        case UNLOADED -> truth.unloaded();
                        case LOADED -> truth.loaded();
                        case RISE -> truth.rise(top);
                        case INLET_RUNNING -> before ? truth.inletBeforeStrokes() : truth.inlet();
                        case RATIO ->
                                before
                                        ? truth.unloaded() / truth.inletBeforeStrokes()
                                        : truth.ratio();
                        default -> throw new IllegalArgumentException(measurand.key());
                    };
            all.add(new Held(drawn, measurand, startup.figure(measurand), value));
        }
    }

    /** The truth of the level to which leat says that the rise refers. */
    private static double top(Startup startup, TrueFigures truth) {
        for (ClimbRemark remark : startup.remarks()) {
            if (remark.kind() == ClimbRemark.Kind.TOP_UNLOADED) {
                return truth.unloaded();
            }
            if (remark.kind() == ClimbRemark.Kind.TOP_LOADED) {
                return truth.loaded();
            }
        }
        return truth.end();
    }

    static Optional<Startup> startup(DrawnStart drawn, Sampling sampling) {
        List<Input> inputs = inputs(drawn, sampling);
        boolean commanded =
                inputs.stream()
                        .anyMatch(i -> i instanceof Reading r && r.channel() == Channel.RUNNING);
        Set<Channel> channels =
                commanded
                        ? Set.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING)
                        : Set.of(Channel.INLET, Channel.BOOSTED);
        WatchSettings settings = new WatchSettings("jet", channels, Limits.DEFAULTS);
        return Told.by(settings, inputs).startups.stream().findFirst();
    }

    /** What a watch is fed; a quarter of the machines has no run signal. */
    static List<Input> inputs(DrawnStart drawn, Sampling sampling) {
        Random random = new Random(drawn.seed() * 31 + sampling.ordinal());
        boolean commanded = random.nextInt(4) != 0;
        List<Input> inputs = new ArrayList<>();
        double phase = random.nextDouble() / sampling.hertz;
        long tick = Line.START;
        int steps = drawn.course().boosted().length;
        for (int i = 0; (phase + i / (double) sampling.hertz) * DrawnStart.HZ < steps; i++) {
            double second = phase + i / (double) sampling.hertz;
            int step = (int) (second * DrawnStart.HZ);
            long at = Line.START + Math.round(step * 1e6 / DrawnStart.HZ);
            while (tick < at) {
                inputs.add(new Tick(tick));
                tick += Tick.PERIOD_MICROS;
            }
            if (commanded) {
                boolean on = second >= drawn.startSecond() && second < drawn.stopSecond();
                inputs.add(Reading.good(Channel.RUNNING, at, on ? 1 : 0));
            }
            double inlet = shown(drawn.course().inlet()[step], sampling, random);
            double boosted = shown(drawn.course().boosted()[step], sampling, random);
            inputs.add(Reading.good(Channel.INLET, at, inlet));
            inputs.add(Reading.good(Channel.BOOSTED, at, boosted));
        }
        return inputs;
    }

    private static double shown(double psi, Sampling sampling, Random random) {
        return Math.rint((psi + sampling.noisePsi * random.nextGaussian()) / COUNT_PSI) * COUNT_PSI;
    }

    /**
     * Prints the table. Arguments, each of which may be left out: how many starts of each kind,
     * 100; how many of them to pass over first, 0; whether each start whose interval fails is
     * printed; the kinds.
     */
    public static void main(String[] args) {
        int many = args.length == 0 ? 100 : Integer.parseInt(args[0]);
        int first = args.length < 2 ? 0 : Integer.parseInt(args[1]);
        boolean each = args.length > 2 && Boolean.parseBoolean(args[2]);
        List<DrawnStart.Kind> kinds =
                args.length < 4
                        ? List.of(DrawnStart.Kind.values())
                        : Stream.of(args).skip(3).map(DrawnStart.Kind::valueOf).toList();
        for (DrawnStart.Kind kind : kinds) {
            List<DrawnStart> starts = DrawnStart.all(kind, first, many);
            for (Sampling sampling : Sampling.values()) {
                List<Held> all = starts.stream().flatMap(s -> held(s, sampling).stream()).toList();
                System.out.printf(
                        "%s %s, %d of %d starts rose%n",
                        kind, sampling, all.size() / FIGURES.size(), many);
                for (Measurand measurand : FIGURES) {
                    List<Held> one = all.stream().filter(h -> h.measurand() == measurand).toList();
                    print(measurand, one);
                    if (each) {
                        one.stream()
                                .filter(h -> h.isStated() && !h.holds())
                                .forEach(CoverageTable::print);
                    }
                }
            }
        }
    }

    private static void print(Held held) {
        System.out.printf(
                Locale.ROOT,
                "      seed %d true %.3f said %.3f +- %.3f%n",
                held.drawn().seed(),
                held.truth(),
                held.figure().get(),
                held.figure().uncertainty().orElse(0));
    }

    private static void print(Measurand measurand, List<Held> all) {
        Map<String, Integer> absent = new TreeMap<>();
        all.stream()
                .filter(held -> !held.figure().isPresent())
                .forEach(h -> absent.merge(h.figure().absentBecause().key(), 1, Integer::sum));
        long untrue =
                all.stream().filter(h -> h.figure().isPresent() && Double.isNaN(h.truth())).count();
        List<Held> stated = all.stream().filter(Held::isStated).toList();
        double[] widths =
                stated.stream().mapToDouble(h -> h.figure().uncertainty().orElse(0)).toArray();
        Arrays.sort(widths);
        double[] needed = stated.stream().mapToDouble(h -> Math.abs(h.error())).toArray();
        Arrays.sort(needed);
        System.out.printf(
                Locale.ROOT,
                "  %-14s %4d stated  holds %5.1f %%  half width %7.3f  (errors: 95 %% in %7.3f, mean %7.3f)"
                        + " no truth %d absent %s%n",
                measurand.key(),
                stated.size(),
                100.0 * stated.stream().filter(Held::holds).count() / Math.max(1, stated.size()),
                widths.length == 0 ? Double.NaN : widths[widths.length / 2],
                needed.length == 0 ? Double.NaN : needed[(int) (0.95 * needed.length)],
                stated.stream().mapToDouble(Held::error).average().orElse(Double.NaN),
                untrue,
                absent);
    }
}
