package leat.watch;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import leat.bench.line.Build;
import leat.bench.line.Fault;
import leat.bench.line.FeedLine;
import leat.bench.line.House;
import leat.bench.line.LineSettings;
import leat.bench.line.LumpedLine;
import leat.diagnose.Cause;
import leat.diagnose.Observation;
import leat.diagnose.PlayedRun;
import leat.diagnose.PlayedRun.Make;
import leat.diagnose.PlayedRuns;
import leat.diagnose.SignalFact;

/**
 * Plays machines drawn by chance, sound and with every trouble, and writes down what a watch
 * measured of each run, for diagnoses to be fitted to and judged by. It judges nothing.
 *
 * <pre>
 * java -cp ... leat.watch.DrawnObservations FILE --seed N --machines N [--rough] [--runs N]
 *
 * --seed N        which machines: from 1 on for tuning, from 1001 on for judging, from 2001 on for
 *                 tempering; leat.diagnose.MachinesFor keeps them apart
 * --machines N    how many; 60
 * --from N        from which on; 0
 * --runs N        how many runs of each trouble; 3
 * --rough         of another model of the line
 * --threads N     1
 * </pre>
 */
public final class DrawnObservations {

    private static final int OWN_RUNS = 14;
    private static final double FIRST_REST = 30;
    private static final double NIGHT = 1200;
    private static final double TOLERANCE = 100;

    private final DrawnMachine machine;
    private final long seed;
    private final int number;
    private final Make make;
    private final int faultyRuns;
    private final List<PlayedRun> played = new ArrayList<>();
    private final List<Seen> own = new ArrayList<>();
    private byte[] snapshot = {};
    private long learnedAtMicros;
    private int cases;

    private DrawnObservations(long seed, int number, Make make, int faultyRuns) {
        machine = DrawnMachine.of(seed, number);
        this.seed = seed;
        this.number = number;
        this.make = make;
        this.faultyRuns = faultyRuns;
    }

    public static void main(String[] arguments) throws Exception {
        List<String> given = Arrays.asList(arguments);
        long seed = Long.parseLong(option(given, "--seed", "1"));
        int machines = Integer.parseInt(option(given, "--machines", "60"));
        int from = Integer.parseInt(option(given, "--from", "0"));
        int runs = Integer.parseInt(option(given, "--runs", "3"));
        Make make = given.contains("--rough") ? Make.ROUGH : Make.BENCH;
        int threads = Integer.parseInt(option(given, "--threads", "1"));
        ExecutorService workers = Executors.newFixedThreadPool(threads);
        try (PlayedRuns file = new PlayedRuns(Path.of(arguments[0]))) {
            List<Future<?>> all = new ArrayList<>();
            for (int i = from; i < from + machines; i++) {
                int number = i;
                all.add(workers.submit(() -> write(file, play(seed, number, make, runs))));
            }
            for (Future<?> one : all) {
                one.get();
            }
        } finally {
            workers.shutdown();
        }
    }

    private static Void write(PlayedRuns file, List<PlayedRun> runs) throws IOException {
        file.add(runs);
        System.out.printf(
                "%s %d: %d runs%n", runs.get(0).wiring(), runs.get(0).machine(), runs.size());
        return null;
    }

    private static String option(List<String> given, String key, String usual) {
        int at = given.indexOf(key);
        return at < 0 ? usual : given.get(at + 1);
    }

    /** All runs of one machine. */
    public static List<PlayedRun> play(long seed, int number, Make make, int faultyRuns) {
        DrawnObservations one = new DrawnObservations(seed, number, make, faultyRuns);
        one.learn();
        one.sound();
        one.troubles(false);
        return one.played;
    }

    /** A machine with each trouble once, as bad as it gets, and a few sound runs. */
    public static List<PlayedRun> playLittle(long seed, int number) {
        DrawnObservations one = new DrawnObservations(seed, number, Make.BENCH, 1);
        one.learn();
        one.healthy("sound", one.machine, 4, FIRST_REST, line -> {});
        one.troubles(true);
        return one.played;
    }

    private void learn() {
        Watch watch = new Watch(machine.settings());
        snapshot =
                play(
                        PlayedRun.OWN,
                        Cause.HEALTHY,
                        machine,
                        watch,
                        0,
                        BenchFeed.START,
                        OWN_RUNS,
                        FIRST_REST,
                        line -> {},
                        0,
                        false);
    }

    private void sound() {
        Random random = new Random(machine.seed() + 5);
        for (int i = 0; i < 3; i++) {
            healthy("sound", machine, 4, FIRST_REST, line -> {});
        }
        for (int i = 0; i < 2; i++) {
            healthy("season", season(random), 4, FIRST_REST, line -> {});
        }
        healthy("taps", taps(random), 4, FIRST_REST, line -> {});
        for (int i = 0; i < 2; i++) {
            healthy("morning", machine, 2, NIGHT, line -> {});
        }
        double air = 0.02 + 0.05 * random.nextDouble();
        healthy("serviced", machine, 3, FIRST_REST, line -> line.line().strike(Fault.AIR, air));
    }

    /** The house gives a few psi more or less, and the water is colder or warmer. */
    private DrawnMachine season(Random random) {
        LineSettings line = machine.line();
        Build build = line.build();
        double celsius = build.waterCelsius() + 16 * random.nextDouble() - 8;
        double supply = line.supplyPsi() + 12 * random.nextDouble() - 6;
        return with(
                new LineSettings(
                        supply,
                        line.setPsi(),
                        build.withWaterCelsius(Math.max(2, Math.min(45, celsius)))));
    }

    /** Others in the shop draw water all the time. */
    private DrawnMachine taps(Random random) {
        House house = machine.line().build().house();
        House busy =
                new House(house.driftPsi(), house.wanderPsi(), 60, 2 + 6 * random.nextDouble(), 10);
        return with(
                new LineSettings(
                        machine.line().supplyPsi(),
                        machine.line().setPsi(),
                        machine.line().build().in(busy)));
    }

    private DrawnMachine with(LineSettings line) {
        return new DrawnMachine(
                machine.name(),
                machine.seed(),
                line,
                machine.hz(),
                machine.transducer(),
                machine.offsets(),
                machine.wired(),
                machine.limits(),
                machine.habit());
    }

    private void healthy(
            String deed,
            DrawnMachine as,
            int runs,
            double rest,
            java.util.function.Consumer<DrawnLine> what) {
        cases++;
        Watch watch = Watch.restore(machine.settings(), snapshot);
        play(
                deed,
                Cause.HEALTHY,
                as,
                watch,
                17L * cases,
                learnedAtMicros,
                runs,
                rest,
                what,
                0,
                false);
    }

    private void troubles(boolean worstAlone) {
        for (Trouble trouble : Trouble.of(machine, new Random(machine.seed() + 2))) {
            Optional<Cause> cause = cause(trouble);
            int first = worstAlone ? trouble.sizes().size() - 1 : 0;
            for (int which = first; which < trouble.sizes().size() && cause.isPresent(); which++) {
                cases++;
                Random random =
                        new Random(machine.seed() + 31L * trouble.key().hashCode() + 7L * which);
                double size = size(trouble, which, random);
                Watch watch = Watch.restore(machine.settings(), snapshot);
                play(
                        trouble.key(),
                        cause.get(),
                        machine,
                        watch,
                        17L * cases,
                        learnedAtMicros,
                        faultyRuns,
                        FIRST_REST,
                        line -> trouble.comes().into(line, size),
                        size,
                        trouble.always());
            }
        }
    }

    /** From hardly any to the worst. */
    private static double size(Trouble trouble, int which, Random random) {
        double least = which == 0 ? 0.35 * trouble.sizes().get(0) : trouble.sizes().get(which - 1);
        double most = trouble.sizes().get(which);
        return trouble.sizes().size() == 1 ? most : least + (most - least) * random.nextDouble();
    }

    private static Optional<Cause> cause(Trouble trouble) {
        String kind = trouble.key().split(" ", 2)[0];
        Optional<Fault> fault = Fault.byKey(kind);
        if (fault.isPresent()) {
            return Optional.of(cause(fault.get()));
        }
        return switch (kind) {
            case "broken-loop", "shorted-loop" -> Optional.of(Cause.OPEN_LOOP);
            case "stuck" -> Optional.of(Cause.STUCK);
            case "loose-loop" -> Optional.of(Cause.LOOSE_LOOP);
            case "swapped" -> Optional.of(Cause.SWAPPED);
            case "offset" ->
                    Optional.of(
                            trouble.key().endsWith("inlet")
                                    ? Cause.INLET_OFFSET
                                    : Cause.BOOSTED_OFFSET);
            default -> Optional.empty();
        };
    }

    private static Cause cause(Fault fault) {
        return switch (fault) {
            case WORN_BOOSTER -> Cause.WORN_BOOSTER;
            case NOT_TURNING -> Cause.NOT_TURNING;
            case COUPLING_SLIPS -> Cause.COUPLING_SLIPS;
            case WEAK_SUPPLY -> Cause.WEAK_SUPPLY;
            case WATER_SHUT -> Cause.SUPPLY_SHUT;
            case LEAKING_VALVE -> Cause.VALVE_LEAKS;
            case SLOW_VALVE -> Cause.VALVE_SLOW;
            case PART_OPEN_VALVE -> Cause.VALVE_PART_OPEN;
            case CLOGGED_STRAINER -> Cause.STRAINER_CLOGGED;
            case CLOGGED_FILTER -> Cause.FILTERS_CLOGGED;
            case SET_TOO_LOW -> Cause.SET_LOW;
            case SET_TOO_HIGH -> Cause.SET_HIGH;
            case STICKING_REGULATOR -> Cause.REGULATOR_STICKING;
            case AIR -> Cause.AIR;
            case EXTERNAL_LEAK -> Cause.EXTERNAL_LEAK;
        };
    }

    private byte[] play(
            String deed,
            Cause cause,
            DrawnMachine as,
            Watch watch,
            long chance,
            long fromMicros,
            int runs,
            double rest,
            java.util.function.Consumer<DrawnLine> what,
            double size,
            boolean always) {
        Recollection recollection = Recollection.ofAll();
        long lineSeed = machine.seed() + chance;
        DrawnLine line =
                new DrawnLine(
                        as,
                        line(as.line(), lineSeed),
                        lineSeed,
                        fromMicros,
                        input -> watch.feed(input, recollection));
        what.accept(line);
        line.rest(rest);
        Random random = new Random(lineSeed + 3);
        List<Seen> seen = new ArrayList<>();
        List<Long> times = new ArrayList<>();
        times.add(fromMicros);
        for (int i = 0; i < runs; i++) {
            DrawnRun run = DrawnRun.of(machine.habit(), random);
            seen.add(line.run(run, 0, () -> {}));
            times.add(line.atMicros());
        }
        line.rest(FIRST_REST);
        if (deed.equals(PlayedRun.OWN)) {
            own.addAll(seen);
            learnedAtMicros = line.atMicros();
        }
        int ofCase = plain(deed, cause, size, always, seen);
        for (int i = 0; i < runs; i++) {
            int plain = plain(deed, cause, size, always, seen.subList(i, i + 1));
            between(recollection, i == 0 ? fromMicros : times.get(i), times.get(i + 1))
                    .ifPresent(
                            observation ->
                                    played.add(
                                            new PlayedRun(
                                                    number,
                                                    seed,
                                                    make,
                                                    wiring(),
                                                    deed,
                                                    cases,
                                                    cause,
                                                    size,
                                                    plain,
                                                    ofCase,
                                                    observation)));
        }
        return deed.equals(PlayedRun.OWN) ? watch.snapshot() : snapshot;
    }

    /**
     * What was seen of the run that began in that time, the longest where there were several; where
     * none was seen, what was wrong with the signals meanwhile.
     */
    private static Optional<Observation> between(
            Recollection seen, long fromMicros, long toMicros) {
        List<Observation> meanwhile =
                seen.since(fromMicros).stream()
                        .filter(one -> one.startedAtMicros() < toMicros)
                        .toList();
        return meanwhile.stream()
                .filter(one -> one.startedAtMicros() >= fromMicros)
                .filter(one -> one.start().isPresent() || one.run().isPresent())
                .max(Comparator.comparingLong(DrawnObservations::runMicros))
                .or(() -> signalsAlone(meanwhile, fromMicros));
    }

    private static Optional<Observation> signalsAlone(List<Observation> seen, long atMicros) {
        List<SignalFact> facts =
                seen.stream().flatMap(one -> one.signals().stream()).distinct().toList();
        return facts.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new Observation(
                                atMicros,
                                Optional.empty(),
                                Optional.empty(),
                                Optional.empty(),
                                facts));
    }

    private static long runMicros(Observation one) {
        return one.run().map(run -> run.endedAtMicros() - run.startedAtMicros()).orElse(0L);
    }

    private int plain(String deed, Cause cause, double size, boolean always, List<Seen> seen) {
        if (cause == Cause.HEALTHY) {
            return 0;
        }
        if (deed.startsWith("loose-loop")) {
            return Plain.lost(size).grade().ordinal();
        }
        return always
                ? Plain.Grade.GROSS.ordinal()
                : Plain.of(machine, Seen.middle(own), seen).grade().ordinal();
    }

    private FeedLine line(LineSettings settings, long lineSeed) {
        return switch (make) {
            case BENCH -> new LumpedLine(settings, lineSeed, TOLERANCE);
            case ROUGH -> new RoughLine(settings, machine.seed(), lineSeed);
        };
    }

    private String wiring() {
        Build build = machine.line().build();
        return build.booster().key()
                + " "
                + build.regulator().key()
                + " "
                + build.inletTap().key()
                + " "
                + machine.wired().stream().sorted().map(leat.signal.Channel::key).toList();
    }
}
