package leat.watch;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import leat.bench.line.BoosterKind;
import leat.bench.line.Build;
import leat.bench.line.House;
import leat.bench.line.InletTap;
import leat.bench.line.LineSettings;
import leat.bench.line.LumpedLine;
import leat.bench.line.RegulatorKind;
import leat.bench.sensor.Loop;
import leat.bench.sensor.Tap;
import leat.bench.sensor.Transducer;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;

/**
 * A sound machine drawn by chance: how it is built, plumbed, read, wired and used, and how its shop
 * has set it up. Kinds of pump, regulator, tap and wiring go by the machine's number, so that a few
 * dozen machines have all of them; the rest comes from its seed. All figures invented.
 *
 * @param name machine name
 * @param seed of everything that is drawn of it
 * @param line how it is built and set
 * @param hz readings a second
 * @param transducer how its gauges are made
 * @param offsets what each gauge reads too high all along, psi
 * @param wired its channels
 * @param limits what its shop has set
 * @param habit how long its runs are
 */
record DrawnMachine(
        String name,
        long seed,
        LineSettings line,
        int hz,
        Transducer transducer,
        Map<Tap, Double> offsets,
        Set<Channel> wired,
        Limits limits,
        Habit habit) {

    /** How long a machine's runs are. */
    enum Habit {
        SHORT(8, 25),
        LONG(40, 90),
        MIXED(8, 90);

        private final double shortestSeconds;
        private final double longestSeconds;

        Habit(double shortestSeconds, double longestSeconds) {
            this.shortestSeconds = shortestSeconds;
            this.longestSeconds = longestSeconds;
        }

        double draw(Random random) {
            return shortestSeconds + (longestSeconds - shortestSeconds) * random.nextDouble();
        }
    }

    private static final double LEAST_SUPPLY = 32;
    private static final double MOST_SUPPLY = 60;
    private static final double LEAST_SET = 82;
    private static final double MOST_SET = 118;

    /** A shop whose inlet runs nearer to its limit than this has more pressure brought to it. */
    private static final double LEAST_INLET_IN_DIPS = 27;

    private static final double TRIAL_SECONDS = 40;

    static DrawnMachine of(long seed, int number) {
        long own = 1_000_003 * seed + 7_919L * number;
        Random random = new Random(own);
        BoosterKind booster = number % 2 == 0 ? BoosterKind.VANE : BoosterKind.CENTRIFUGAL;
        RegulatorKind regulator =
                number / 2 % 2 == 0 ? RegulatorKind.GAUGE : RegulatorKind.DIFFERENTIAL;
        InletTap tap = number / 4 % 3 == 2 ? InletTap.BEHIND_VALVE : InletTap.BEFORE_VALVE;
        Build drawn = Build.drawn(booster, own).withRegulator(regulator).withInletTap(tap);
        House house = drawn.house();
        Build build =
                drawn.in(
                        new House(
                                house.driftPsi(),
                                between(random, 0, 2),
                                house.dipsPerHour(),
                                house.dipPsi(),
                                house.dipSeconds()));
        double supply = between(random, LEAST_SUPPLY, MOST_SUPPLY);
        double ratio = between(random, 2.1, 2.5);
        LineSettings line = set(supply, ratio, build);
        Seen trial = trial(line, own);
        double least = LEAST_INLET_IN_DIPS + house.dipPsi() + build.house().wanderPsi();
        if (trial.inletPsi() < least) {
            line = set(supply + least - trial.inletPsi(), ratio, build);
            trial = trial(line, own);
        }
        Map<Tap, Double> offsets = new EnumMap<>(Tap.class);
        for (Tap each : Tap.values()) {
            offsets.put(each, Math.max(-0.8, Math.min(0.8, 0.4 * random.nextGaussian())));
        }
        Loop loop =
                new Loop(200, random.nextBoolean() ? 12 : 16, random.nextInt(3) == 0 ? 22 : 20.5);
        return new DrawnMachine(
                "jet-" + number,
                own,
                line,
                random.nextInt(4) == 0 ? 10 : 20,
                new Transducer(loop, between(random, 0.01, 0.06), between(random, 0.1, 0.7)),
                offsets,
                wired(random, number),
                Limits.with(limits(line, trial)),
                Habit.values()[random.nextInt(Habit.values().length)]);
    }

    private static LineSettings set(double supply, double ratio, Build build) {
        double level = Math.max(LEAST_SET, Math.min(MOST_SET, ratio * supply));
        return new LineSettings(supply, level, build);
    }

    private static Set<Channel> wired(Random random, int number) {
        Set<Channel> wired = EnumSet.of(Channel.INLET, Channel.BOOSTED);
        if (number / 3 % 2 == 0) {
            wired.add(Channel.RUNNING);
            if (random.nextInt(3) == 0) {
                wired.add(Channel.CUTTING);
            }
        }
        if (random.nextInt(4) == 0) {
            wired.add(Channel.VALVE);
        }
        if (random.nextInt(2) == 0) {
            wired.add(Channel.FILTERED);
        }
        return wired;
    }

    private static Seen trial(LineSettings line, long seed) {
        Trace trace = new Trace();
        LumpedLine trial = new LumpedLine(line, seed);
        trial.advance(2);
        trace.add(trial.state());
        trial.start();
        for (double at = 0; at < TRIAL_SECONDS; at += Trace.STEP) {
            trial.advance(Trace.STEP);
            trace.add(trial.state());
        }
        trial.pause();
        for (double at = 0; at < TRIAL_SECONDS / 4; at += Trace.STEP) {
            trial.advance(Trace.STEP);
            trace.add(trial.state());
        }
        return trace.seen();
    }

    /** A shop moves the limits of a machine that lives near them, as the README tells it to. */
    private static Map<Limit, Double> limits(LineSettings line, Seen trial) {
        Map<Limit, Double> own = new HashMap<>();
        double low = trial.loadedPsi();
        double high = Math.max(trial.unloadedPsi(), low);
        if (low < 97 || high > 113) {
            own.put(Limit.LEVEL_SET, round(low));
            own.put(Limit.LEVEL_ADVISORY, round(0.9 * low));
            own.put(Limit.LEVEL_WARNING, round(0.8 * low));
            own.put(Limit.LEVEL_HIGH_ADVISORY, Math.max(120, round(1.12 * high)));
            own.put(Limit.LEVEL_HIGH_WARNING, Math.max(140, round(1.3 * high)));
        }
        if (trial.riseSeconds() > 2.5) {
            own.put(Limit.RISE_ADVISORY, round(1.5 * trial.riseSeconds()));
            own.put(Limit.RISE_WARNING, Math.max(6, round(2.5 * trial.riseSeconds())));
        }
        return own;
    }

    private static double round(double value) {
        return Math.round(10 * value) / 10.0;
    }

    private static double between(Random random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    WatchSettings settings() {
        return new WatchSettings(name, wired, limits);
    }

    boolean has(Channel channel) {
        return wired.contains(channel);
    }

    /** In one line. */
    String words() {
        Build build = line.build();
        return String.format(
                java.util.Locale.ROOT,
                "%s %s, %s regulator, tap %s, %.0f to %.0f psi, draw %.1f, noise %.2f, %d Hz, %s"
                        + " runs, %s%s",
                name,
                build.booster().key(),
                build.regulator().key(),
                build.inletTap().key(),
                line.supplyPsi(),
                line.setPsi(),
                build.drawLitresPerMinute(),
                transducer.noisePsi(),
                hz,
                habit,
                wired.stream().sorted().map(Channel::key).toList(),
                limits.changed().isEmpty() ? "" : " own limits " + limits.changed());
    }
}
