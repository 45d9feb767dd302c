package leat.watch;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import leat.bench.line.BoosterKind;
import leat.bench.line.Fault;
import leat.bench.line.FeedLine;
import leat.bench.line.InletTap;
import leat.bench.line.LineSettings;
import leat.bench.line.LineState;
import leat.bench.line.RegulatorKind;

/**
 * A rougher model of the line than the bench's, of other equations and figures, to see whether what
 * was fitted to one model holds on another: linear slip, a regulator without inertia, air at
 * constant temperature, explicit steps of 2 ms. Pressures gauge psi, flows L/min, volumes mL,
 * seconds. All figures invented. Thread-confined.
 */
final class RoughLine implements FeedLine {

    private static final double STEP = 0.002;
    private static final double ML_PER_SECOND = 1000 / 60.0;
    private static final double AIR_PSI = 14.7;
    private static final double CREEP = 0.06;
    private static final double PURGED_ML = 300;
    private static final double PURGES_BY_ML = 2500 / 1.6;
    private static final double LATEST_STROKES = 8;

    private final LineSettings settings;
    private final Random random;
    private final boolean vane;
    private final double beta;
    private final double line;
    private final double strainer;
    private final double valve;
    private final double valveSeconds;
    private final double motorSeconds;
    private final double delay;
    private final double swept;
    private final double slip;
    private final double head;
    private final double headFlow;
    private final double crack;
    private final double stiff;
    private final double usualAir;
    private final double give2;
    private final double give3;
    private final double give0;
    private final double give1;
    private final double even;
    private final double pulse;
    private final double strokeHz;
    private final double pulseSeconds;
    private final double bleed;
    private final double filter;
    private final Map<Fault, Double> struck = new EnumMap<>(Fault.class);

    private double p0;
    private double p1;
    private double p2;
    private double p3;
    private double speed;
    private double open;
    private double air;
    private double held;
    private double phase;
    private double wander;
    private double dip;
    private double dipLeft;
    private double grip;
    private double sinceStart;
    private double strokesAt = Double.POSITIVE_INFINITY;
    private double rest;
    private boolean running;
    private boolean jet = true;

    /**
     * @param build whose seed makes the machine; the same machine has the same
     * @param chance what happens on this day
     */
    RoughLine(LineSettings settings, long build, long chance) {
        this.settings = settings;
        random = new Random(chance);
        Random drawn = new Random(build);
        vane = settings.build().booster() == BoosterKind.VANE;
        beta = settings.build().regulator() == RegulatorKind.DIFFERENTIAL ? 1 : 0;
        line = between(drawn, 2.2, 6);
        strainer = between(drawn, 6, 9);
        valve = between(drawn, 7, 10);
        valveSeconds = between(drawn, 0.2, 1.2);
        motorSeconds = between(drawn, 0.08, 0.3);
        delay = between(drawn, 0.1, 0.8);
        swept = between(drawn, 10, 14);
        slip = between(drawn, 0.012, 0.035);
        head = between(drawn, 1.3, 1.5);
        headFlow = between(drawn, 2, 3);
        stiff = between(drawn, 0.7, 4);
        double lift = settings.setPsi() - beta * settings.supplyPsi();
        crack = lift - 3 / stiff;
        usualAir = between(drawn, 90, 500);
        air = usualAir;
        give2 = between(drawn, 0.6, 1.3);
        give3 = between(drawn, 0.6, 1.3);
        give0 = between(drawn, 1.2, 2);
        give1 = between(drawn, 1.2, 2);
        even = between(drawn, 2, 5);
        pulse = between(drawn, 5, 14);
        strokeHz = between(drawn, 0.6, 1.3);
        pulseSeconds = between(drawn, 0.12, 0.3);
        bleed = between(drawn, 0.15, 0.6);
        filter = between(drawn, 3, 7);
        p0 = settings.supplyPsi();
    }

    private static double between(Random random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    @Override
    public void start() {
        if (!running) {
            running = true;
            sinceStart = 0;
            strokesAt = LATEST_STROKES;
        }
    }

    @Override
    public void stop() {
        running = false;
    }

    @Override
    public void cut() {
        jet = true;
    }

    @Override
    public void pause() {
        jet = false;
    }

    @Override
    public void strike(Fault fault, double severity) {
        struck.put(fault, severity);
        if (fault == Fault.AIR) {
            air = usualAir + 3900 * severity;
        }
    }

    @Override
    public void repair(Fault fault) {
        struck.remove(fault);
    }

    private double bad(Fault fault) {
        return struck.getOrDefault(fault, 0.0);
    }

    @Override
    public void advance(double seconds) {
        rest += seconds;
        while (rest >= STEP) {
            step();
            rest -= STEP;
        }
    }

    private static double flow(double psi) {
        return psi / Math.sqrt(Math.abs(psi) + 1);
    }

    private void step() {
        wander += STEP * -wander / 5 + 0.6 * Math.sqrt(2 * STEP / 5) * random.nextGaussian();
        dips();
        double supply = settings.supplyPsi() * (1 - 0.9 * bad(Fault.WEAK_SUPPLY)) + wander - dip;
        double dirt = strainer * Math.pow(0.62 / 8, bad(Fault.CLOGGED_STRAINER));
        double series = 1 / Math.sqrt(1 / (line * line) + 1 / (dirt * dirt));
        double in = bad(Fault.WATER_SHUT) > 0 ? 0 : series * flow(supply - p0);
        double most = 1 - 0.78 * bad(Fault.PART_OPEN_VALVE);
        double travel = valveSeconds + 4 * bad(Fault.SLOW_VALVE);
        open = Math.max(0, Math.min(most, open + (running ? STEP : -STEP) / travel));
        double share = Math.min(0.93, bad(Fault.LEAKING_VALVE));
        double leak = share > 0 ? bleed * Math.sqrt(share / (1 - share)) : 0;
        double through = (leak + valve * open * open) * flow(p0 - p1);
        boolean on = running && sinceStart > delay;
        speed += STEP * ((on ? 1 : 0) - speed) / (on ? motorSeconds : 0.25);
        double pumped = pumped();
        double play = 14 * bad(Fault.STICKING_REGULATOR);
        held = Math.max(p2 - play, Math.min(p2 + play, held));
        double set = crack - 50 * bad(Fault.SET_TOO_LOW) + 50 * bad(Fault.SET_TOO_HIGH);
        double back = stiff * Math.max(held - set - beta * p1, 0);
        double clog = filter * Math.pow(0.17, bad(Fault.CLOGGED_FILTER));
        double filtered = clog * flow(p2 - p3);
        double out = 1.5 * bad(Fault.EXTERNAL_LEAK) * flow(Math.max(p2, 0));
        double drawn = drawn(set + beta * p1);
        double bled = running ? 0 : bleed * flow(p3);
        double a2 = give2 + 0.4 * air * AIR_PSI / square(Math.max(p2, -10) + AIR_PSI);
        double a3 = give3 + 0.6 * air * AIR_PSI / square(Math.max(p3, -10) + AIR_PSI);
        double by = STEP * ML_PER_SECOND;
        p0 = Math.max(-13, p0 + by * (in - through) / give0);
        p1 = Math.max(-13, p1 + by * (through - pumped + back) / give1);
        p2 += by * (pumped - back - filtered - out) / a2;
        p3 += by * (filtered - drawn - bled) / a3;
        if (air > PURGED_ML) {
            air -= (air - PURGED_ML) * by * drawn / PURGES_BY_ML;
        }
        if (running) {
            sinceStart += STEP;
        }
    }

    private void dips() {
        dipLeft -= STEP;
        if (dipLeft <= 0) {
            dip = 0;
            if (random.nextDouble() < settings.build().house().dipsPerHour() / 3600 * STEP) {
                dip = settings.build().house().dipPsi() * between(random, 0.5, 1);
                dipLeft = between(random, 3, 15);
            }
        }
    }

    private double pumped() {
        double lift = p2 - p1;
        double filled = Math.max(0, Math.min(1, (p1 + 11) / 8));
        double turns = bad(Fault.NOT_TURNING) > 0 ? 0 : speed;
        if (bad(Fault.COUPLING_SLIPS) > 0) {
            grip += STEP * -grip / 0.4 + 5 * Math.sqrt(2 * STEP / 0.4) * random.nextGaussian();
            double holds = 58 - 46 * bad(Fault.COUPLING_SLIPS) + grip;
            turns *= 1 / (1 + Math.exp((lift - holds) / 3));
        }
        double free = 15 * flow(Math.max(p1 - p2, 0));
        double worn = bad(Fault.WORN_BOOSTER);
        if (vane) {
            return swept * turns * filled
                    - (slip + 0.38 * worn) * lift * Math.min(1, turns + 0.1)
                    + free;
        }
        double lifts = head * settings.setPsi() * 0.6 * turns * turns * filled * (1 - 0.6 * worn);
        return headFlow * flow(Math.max(lifts - lift, 0)) + free;
    }

    private double drawn(double level) {
        if (!running) {
            strokesAt = Double.POSITIVE_INFINITY;
            return 0;
        }
        if (p2 > 0.85 * level) {
            strokesAt = Math.min(strokesAt, sinceStart + 1);
        }
        if (sinceStart < strokesAt) {
            return 0;
        }
        double pace = Math.sqrt(Math.max(0, Math.min(1, p3 / 60))) * (jet ? 1 : CREEP);
        phase += STEP * strokeHz * pace;
        double in = phase % 1 / strokeHz;
        double beat = in < pulseSeconds ? Math.sin(Math.PI * in / pulseSeconds) : 0;
        return (even + pulse * beat) * pace;
    }

    private static double square(double x) {
        return x * x;
    }

    @Override
    public LineState state() {
        return new LineState(
                settings.build().inletTap() == InletTap.BEFORE_VALVE ? p0 : p1,
                p2,
                p3,
                running,
                open > 0.02,
                running && jet && sinceStart >= strokesAt,
                Optional.empty());
    }

    @Override
    public double missingWaterShare() {
        return 0;
    }
}
