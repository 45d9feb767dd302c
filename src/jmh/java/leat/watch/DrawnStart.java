package leat.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import leat.bench.line.BoosterKind;
import leat.bench.line.Build;
import leat.bench.line.Fault;
import leat.bench.line.InletTap;
import leat.bench.line.LineSettings;
import leat.bench.line.LumpedLine;
import leat.bench.line.RegulatorKind;

/**
 * A machine of the bench, drawn at random, that is started once: its noise-free course, as the
 * model computes it, and what transducers make of it.
 */
final class DrawnStart {

    /** What is drawn for, beside build, supply and set level. */
    enum Kind {
        HEALTHY,
        WORN(Fault.WORN_BOOSTER, 0.3, 1),
        AIR(Fault.AIR, 0.2, 1),
        PART_OPEN_VALVE(Fault.PART_OPEN_VALVE, 0.3, 0.95),
        SLIPPING(Fault.COUPLING_SLIPS, 0.3, 1),
        STRAINER(Fault.CLOGGED_STRAINER, 0.3, 1),
        EXTERNAL_LEAK(Fault.EXTERNAL_LEAK, 0.2, 1),
        SET_LOW(Fault.SET_TOO_LOW, 0.2, 0.8),
        SET_HIGH(Fault.SET_TOO_HIGH, 0.2, 0.8),
        LONG_STROKES,
        STROKES_IN_CLIMB(Fault.AIR, 0.3, 1);

        private final Optional<Fault> fault;
        private final double least;
        private final double most;

        Kind() {
            fault = Optional.empty();
            least = 0;
            most = 0;
        }

        Kind(Fault fault, double least, double most) {
            this.fault = Optional.of(fault);
            this.least = least;
            this.most = most;
        }
    }

    /** Steps of the noise-free course in a second. */
    static final int HZ = 500;

    private static final double SHORTEST_RUN_SECONDS = 8;
    private static final double LONGEST_RUN_SECONDS = 60;
    private static final double AFTER_SECONDS = 6;

    /** A machine whose pump only just lifts its draw, so that its strokes begin while it climbs. */
    private static final double WEAK_SEVERITY = 0.5;

    private final Kind kind;
    private final long seed;
    private final Course course;
    private final double startSecond;
    private final double stopSecond;

    /**
     * The course of one machine; seconds from the beginning of the record.
     *
     * @param boosted psi, {@link #HZ} a second
     * @param inlet psi where its transducer sits
     * @param drawn share of its usual draw that the intensifier takes
     */
    record Course(double[] boosted, double[] inlet, double[] drawn) {}

    private DrawnStart(Kind kind, long seed, Course course, double startSecond, double stopSecond) {
        this.kind = kind;
        this.seed = seed;
        this.course = course;
        this.startSecond = startSecond;
        this.stopSecond = stopSecond;
    }

    static List<DrawnStart> all(Kind kind, int many) {
        return all(kind, 0, many);
    }

    /**
     * @param first how many to pass over: starts that no threshold was chosen by
     */
    static List<DrawnStart> all(Kind kind, int first, int many) {
        List<DrawnStart> starts = new ArrayList<>();
        for (int i = first; i < first + many; i++) {
            starts.add(of(kind, 7_919L * i + 101L * kind.ordinal()));
        }
        return starts;
    }

    static DrawnStart of(Kind kind, long seed) {
        Random random = new Random(seed * 0x9E3779B97F4A7C15L);
        BoosterKind booster = BoosterKind.values()[random.nextInt(2)];
        InletTap tap = random.nextInt(4) == 0 ? InletTap.BEHIND_VALVE : InletTap.BEFORE_VALVE;
        RegulatorKind[] regulators = RegulatorKind.values();
        Build build =
                build(kind, Build.drawn(booster, seed), random)
                        .withInletTap(tap)
                        .withRegulator(regulators[random.nextInt(regulators.length)]);
        LineSettings settings =
                new LineSettings(between(random, 30, 65), between(random, 75, 115), build);
        LumpedLine line = new LumpedLine(settings, seed);
        kind.fault.ifPresent(fault -> line.strike(fault, between(random, kind.least, kind.most)));
        if (kind == Kind.STROKES_IN_CLIMB) {
            line.strike(Fault.WORN_BOOSTER, between(random, 0, WEAK_SEVERITY));
        }
        double start = between(random, 10, 11);
        double run =
                SHORTEST_RUN_SECONDS
                        * Math.pow(LONGEST_RUN_SECONDS / SHORTEST_RUN_SECONDS, random.nextDouble());
        double stop = start + run;
        int steps = (int) ((Math.min(run, 25) + start + AFTER_SECONDS) * HZ);
        Course course = new Course(new double[steps], new double[steps], new double[steps]);
        for (int i = 0; i < steps; i++) {
            double second = i / (double) HZ;
            if (second >= start && second < start + 1.0 / HZ) {
                line.start();
            }
            if (second >= stop && second < stop + 1.0 / HZ) {
                line.stop();
            }
            var state = line.state();
            var inside = state.inside().orElseThrow();
            course.boosted[i] = state.boostedPsi();
            course.inlet[i] = state.inletPsi();
            course.drawn[i] = inside.drawnLitresPerMinute() / build.drawLitresPerMinute();
            line.advance(1.0 / HZ);
        }
        return new DrawnStart(kind, seed, course, start, stop);
    }

    private static Build build(Kind kind, Build drawn, Random random) {
        return kind != Kind.LONG_STROKES
                ? drawn
                : new Build(
                        drawn.booster(),
                        drawn.waterCelsius(),
                        drawn.drawLitresPerMinute(),
                        between(random, 0.3, 0.45),
                        drawn.pumpLitresPerMinute(),
                        drawn.slipShare(),
                        drawn.mainLossPsi(),
                        drawn.strainerLossPsi(),
                        drawn.filterLossPsi(),
                        drawn.valveSeconds(),
                        drawn.boosterDelaySeconds(),
                        drawn.hoseMlPerPsi(),
                        drawn.airMl(),
                        drawn.bleedLitresPerMinute(),
                        drawn.regulator(),
                        drawn.inletTap(),
                        drawn.house());
    }

    private static double between(Random random, double least, double most) {
        return least + (most - least) * random.nextDouble();
    }

    Kind kind() {
        return kind;
    }

    long seed() {
        return seed;
    }

    Course course() {
        return course;
    }

    double startSecond() {
        return startSecond;
    }

    double stopSecond() {
        return stopSecond;
    }
}
