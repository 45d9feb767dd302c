package leat.watch;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.Stream;
import leat.bench.line.BoosterKind;
import leat.bench.line.Build;
import leat.bench.line.LineSettings;
import leat.bench.line.LineState;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Event;
import leat.bench.scenario.MachineScript;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import leat.measure.ClimbRemark;
import leat.measure.Startup;
import leat.watch.BenchFeed.Wiring;

/**
 * How far a startup's figures lie from what was true in the line, for every start of the bench's
 * scenarios that rises, and for machines of other builds: read through noise and a 12-bit
 * converter, and again with other seeds. The truth is computed here, without leat's measuring: base
 * is the median of the noise-free pressure over the 5 s before the start, top the level that the
 * climb reached (the mean of the half second before the intensifier draws; where strokes begin in
 * the climb, the median of the 6 s before leat measured, or of 3 s where no strokes are seen), the
 * ratio that of the means of these seconds, the rise is the time between the first crossings of 10
 * and 90 % of the noise-free trace, a thousand points a second, by linear interpolation. Where the
 * true pressure falls back across 90 % before it has left the 2 % around it (the state boundaries
 * of IEEE Std 181), as with a slipping coupling, there is no one instant: then any rise up to the
 * last of these crossings is true. Run {@link #main} for the table.
 */
final class RiseAccuracyTable {

    private static final int TRUTH_HZ = 1000;
    private static final double BASE_SECONDS = 5;
    private static final double TOP_SECONDS = 3;

    /** A level under strokes is that of so many seconds. */
    private static final double LOADED_SECONDS = 6;

    private static final double BOUNDARY = 0.02;
    private static final double LEAST_CLIMB_PSI = 10;
    private static final double LONGEST_RISE_SECONDS = 30;

    /** Below this inlet pressure a ratio says nothing. */
    private static final double LEAST_INLET_PSI = 10;

    /** Sensors that lie: what they say is not what is true, and no watcher can know. */
    private static final List<String> LYING =
            List.of("offset-boosted", "offset-inlet", "span-boosted", "swapped-cables");

    /** Sound machines of any build, each with another supply; half of them centrifugal. */
    static final String OTHER_MACHINES = "other-machines";

    /** How a line is read. */
    enum Sampling {
        AT_20_HZ,
        AT_10_HZ,
        /** Four times the usual noise. */
        NOISY_AT_20_HZ;

        BenchFeed feed(Scenario scenario, String machine) {
            BenchFeed feed = BenchFeed.of(scenario).machine(machine).wiring(Wiring.RUNNING);
            return switch (this) {
                case AT_20_HZ -> feed;
                case AT_10_HZ -> feed.hz(10);
                case NOISY_AT_20_HZ -> feed.noise(1.2, scenario.seed());
            };
        }
    }

    /**
     * How far one startup's figures are off.
     *
     * @param which scenario, machine, second of the start, seed
     * @param riseSeconds true 10 to 90 % rise
     * @param riseOff measured minus true, seconds; NaN where leat gives no rise
     * @param topOff measured minus true, psi
     * @param topDoubt what leat says of how far off that may be, psi
     * @param ratioOffPercent measured minus true, percent of true; 0 where no ratio is to be judged
     */
    record Off(
            String which,
            double riseSeconds,
            double riseOff,
            double topOff,
            double topDoubt,
            double ratioOffPercent) {

        /** The rise's error as a share of what is allowed: 5 % or 100 ms. */
        double riseShare() {
            return Double.isNaN(riseOff)
                    ? Double.POSITIVE_INFINITY
                    : Math.abs(riseOff) / Math.max(0.1, 0.05 * riseSeconds);
        }
    }

    /** The noise-free trace of one machine. */
    private static final class Trace {

        private final double[] boosted;
        private final double[] inlet;
        private final double[] drawn;
        private int steps;

        Trace(Scenario scenario, String machine) {
            int longest = (int) (scenario.duration().toMillis() * TRUTH_HZ / 1000) + 1;
            boosted = new double[longest];
            inlet = new double[longest];
            drawn = new double[longest];
            ScenarioRun run = new ScenarioRun(scenario, TRUTH_HZ);
            int index = scenario.machineNames().indexOf(machine);
            double usual = scenario.machines().get(index).line().build().drawLitresPerMinute();
            while (run.nextMicros() < scenario.duration().toNanos() / 1000) {
                LineState truth = run.next().get(index).truth();
                boosted[steps] = truth.boostedPsi();
                inlet[steps] = truth.inletPsi();
                drawn[steps] = truth.inside().orElseThrow().drawnLitresPerMinute() / usual;
                steps++;
            }
        }

        private int step(double seconds) {
            return (int) Math.max(0, Math.min(steps, Math.round(seconds * TRUTH_HZ)));
        }

        double median(double[] psi, double from, double to) {
            double[] values = Arrays.copyOfRange(psi, step(from), step(to));
            Arrays.sort(values);
            return values[values.length / 2];
        }

        double mean(double[] psi, double from, double to) {
            return Arrays.stream(psi, step(from), step(to)).average().orElseThrow();
        }

        /** Mean of the half second before the intensifier first draws half of its usual draw. */
        double beforeStrokes(double start) {
            int from = step(start);
            while (from < steps - 1 && drawn[from] < 0.5) {
                from++;
            }
            return Arrays.stream(boosted, from - TRUTH_HZ / 2, from).average().orElseThrow();
        }

        /** Seconds of the first time at which it comes up to {@code psi}; NaN for never. */
        double crossing(double from, double psi) {
            int last = step(from + LONGEST_RISE_SECONDS);
            for (int i = step(from) + 1; i < last; i++) {
                if (boosted[i - 1] < psi && boosted[i] >= psi) {
                    double share = (psi - boosted[i - 1]) / (boosted[i] - boosted[i - 1]);
                    return (i - 1 + share) / TRUTH_HZ;
                }
            }
            return Double.NaN;
        }

        /**
         * Seconds of the last time it does so before it is {@code beyondPsi} for the first time.
         */
        double lastCrossing(double from, double psi, double beyondPsi) {
            double beyond = crossing(from, beyondPsi);
            double last = crossing(from, psi);
            double next = last;
            while (next < beyond) {
                last = next;
                next = crossing(last + 1.0 / TRUTH_HZ, psi);
            }
            return last;
        }
    }

    private RiseAccuracyTable() {}

    /** Names of the scenarios whose transducers tell the truth. */
    static List<String> names() {
        Predicate<Scenario> watched = scenario -> !scenario.isLong();
        Stream<String> told =
                Catalogue.all().stream()
                        .filter(watched)
                        .map(Scenario::name)
                        .filter(name -> !LYING.contains(name));
        return Stream.concat(told, Stream.of(OTHER_MACHINES)).toList();
    }

    static List<Off> offs(String name, int seeds, Sampling sampling) {
        List<Off> offs = new ArrayList<>();
        for (int seed = 0; seed < seeds; seed++) {
            Scenario scenario = name.equals(OTHER_MACHINES) ? drawn(seed) : found(name, seed);
            for (String machine : scenario.machineNames()) {
                offs.addAll(offs(scenario, machine, sampling));
            }
        }
        return offs;
    }

    private static Scenario found(String name, int seed) {
        Scenario found = Catalogue.find(name).orElseThrow();
        return seed == 0 ? found : found.withSeed(1000 + seed);
    }

    private static Scenario drawn(int seed) {
        BoosterKind kind = BoosterKind.values()[seed % 2];
        Build build = Build.drawn(kind, seed);
        List<Event> timeline =
                List.of(
                        new Event(Duration.ofSeconds(10), new Event.Start()),
                        new Event(Duration.ofSeconds(45), new Event.Stop()));
        LineSettings line = new LineSettings(30 + seed * 11 % 31, 100, build);
        return new Scenario(
                OTHER_MACHINES,
                "A sound machine of another build.",
                "Nothing.",
                seed,
                Duration.ofSeconds(50),
                false,
                List.of(new MachineScript("jet-" + seed, line, timeline)));
    }

    private static List<Off> offs(Scenario scenario, String machine, Sampling sampling) {
        Told told = sampling.feed(scenario, machine).told();
        Trace trace = new Trace(scenario, machine);
        List<Off> offs = new ArrayList<>();
        for (double start : starts(scenario, machine)) {
            told.startups.stream()
                    .filter(one -> Math.abs(seconds(one.startedAtMicros()) - start) < 2)
                    .findFirst()
                    .ifPresent(one -> add(offs, scenario, machine, start, one, trace));
        }
        return offs;
    }

    private static List<Double> starts(Scenario scenario, String machine) {
        int index = scenario.machineNames().indexOf(machine);
        return scenario.machines().get(index).timeline().stream()
                .filter(event -> event.action() instanceof Event.Start)
                .map(Event::at)
                .map(Duration::toMillis)
                .map(millis -> millis / 1e3)
                .toList();
    }

    private static double seconds(long micros) {
        return (micros - BenchFeed.START) / 1e6;
    }

    private static void add(
            List<Off> offs,
            Scenario scenario,
            String machine,
            double start,
            Startup startup,
            Trace trace) {
        double measured = seconds(startup.measuredAtMicros());
        double base = trace.median(trace.boosted, start - BASE_SECONDS, start);
        boolean unloaded = has(startup, ClimbRemark.Kind.TOP_UNLOADED);
        boolean unsure = has(startup, ClimbRemark.Kind.TOP_UNSURE);
        double from = measured - (unsure ? TOP_SECONDS : LOADED_SECONDS);
        double running = trace.median(trace.boosted, from, measured);
        double top = unloaded ? trace.beforeStrokes(start) : running;
        double inlet = trace.mean(trace.inlet, from, measured);
        double ratio = trace.mean(trace.boosted, from, measured) / inlet;
        double t10 = trace.crossing(start, base + 0.1 * (top - base));
        double t90 = trace.crossing(start, base + 0.9 * (top - base));
        double t90Last =
                trace.lastCrossing(
                        start, base + 0.9 * (top - base), base + (0.9 + BOUNDARY) * (top - base));
        if (top - base < LEAST_CLIMB_PSI || Double.isNaN(t90 - t10)) {
            return;
        }
        String which =
                String.format(
                        Locale.ROOT,
                        "%s %s %.0f s, seed %d",
                        scenario.name(),
                        machine,
                        start,
                        scenario.seed());
        boolean judged = inlet > LEAST_INLET_PSI && startup.ratio().isPresent();
        offs.add(
                new Off(
                        which,
                        t90 - t10,
                        startup.riseSeconds().isPresent()
                                ? beyond(startup.riseSeconds().get(), t90 - t10, t90Last - t10)
                                : Double.NaN,
                        startup.topPsi().isPresent() ? startup.topPsi().get() - top : Double.NaN,
                        startup.topPsi().uncertainty().orElse(0),
                        judged ? (startup.ratio().get() / ratio - 1) * 100 : 0));
    }

    private static boolean has(Startup startup, ClimbRemark.Kind kind) {
        return startup.remarks().stream().anyMatch(remark -> remark.kind() == kind);
    }

    /** How far a number lies outside an interval; 0 within it. */
    private static double beyond(double measured, double shortest, double longest) {
        return measured < shortest
                ? measured - shortest
                : Math.max(0, measured - Math.max(shortest, longest));
    }

    /** Prints the worst of each scenario. */
    public static void main(String[] args) {
        int seeds = args.length == 0 ? 10 : Integer.parseInt(args[0]);
        for (Sampling sampling : Sampling.values()) {
            System.out.printf(
                    "%s, worst of %d seeds%n%-26s %6s %7s %9s %9s %9s %9s   worst rise%n",
                    sampling,
                    seeds,
                    "",
                    "starts",
                    "no rise",
                    "rise ms",
                    "of bound",
                    "top psi",
                    "ratio %");
            names().forEach(name -> print(name, offs(name, seeds, sampling)));
        }
    }

    private static void print(String name, List<Off> offs) {
        List<Off> risen = offs.stream().filter(off -> !Double.isNaN(off.riseOff())).toList();
        if (risen.isEmpty()) {
            System.out.printf("%-26s %6d %7d%n", name, offs.size(), offs.size());
            return;
        }
        Off worst = risen.stream().max(Comparator.comparingDouble(Off::riseShare)).orElseThrow();
        System.out.printf(
                Locale.ROOT,
                "%-26s %6d %7d %9.0f %9.2f %9.2f %9.2f   %s: true %.2f s%n",
                name,
                offs.size(),
                offs.size() - risen.size(),
                risen.stream().mapToDouble(o -> Math.abs(o.riseOff())).max().orElse(0) * 1e3,
                worst.riseShare(),
                risen.stream().mapToDouble(o -> Math.abs(o.topOff())).max().orElse(0),
                risen.stream().mapToDouble(o -> Math.abs(o.ratioOffPercent())).max().orElse(0),
                worst.which(),
                worst.riseSeconds());
    }
}
