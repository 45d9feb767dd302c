package leat.bench.line;

import static java.util.Objects.requireNonNull;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;

/**
 * A feed line out of first-order sections and one square-root law for the bleed: simple, believable
 * at the two gauges, and no more than that. No water hammer, no temperature, no flow balance. Of
 * the faults it knows those that moved in with it; the others pass it by.
 *
 * <p>Order of a start: the shut-off valve opens, water fills the line to inlet pressure and pulls
 * the inlet down; the booster comes up a moment later and lifts the line towards what its regulator
 * holds or its wear allows; then the intensifier begins to stroke. At the stop the valve shuts and
 * a bleed lets the pressure down. Thread-confined; the same seed and calls give the same pressures
 * to the last bit.
 */
public final class FirstOrderLine implements FeedLine {

    private static final double ATMOSPHERE_PSI = 14.7;

    /** Slow wander of the supply: small, so that a rest pressure can stand still. */
    private static final double WANDER_PSI = 0.3;

    private static final double WANDER_SECONDS = 20;
    private static final double SUPPLY_SECONDS = 1.0;
    private static final double VALVE_SECONDS = 0.3;
    private static final double VALVE_SHUT = 0.05;
    private static final double BOOST_DELAY_SECONDS = 0.35;
    private static final double RUN_UP_SECONDS = 0.12;
    private static final double COAST_SECONDS = 0.25;
    private static final double FILL_SECONDS = 0.4;
    private static final double LIFT_SECONDS = 0.6;

    /** Pressure that a new booster can add while the intensifier strokes, and more without. */
    private static final double BOOST_PSI = 115;

    private static final double UNLOADED_GAIN = 0.2;

    /** A regulator holds a little more while nothing is drawn. */
    private static final double REGULATOR_DROOP_PSI = 2;

    private static final double MOST_ADDED_BY_SETTING_PSI = 50;
    private static final double STROKES_AFTER_LEVEL_SECONDS = 1;
    private static final double STROKES_LATEST_SECONDS = 8;
    private static final double LEVEL_SHARE_FOR_STROKES = 0.85;
    private static final double LOAD_SECONDS = 0.3;
    private static final double STROKE_DIP_PSI = 5;
    private static final double STROKE_DIP_WORN_PSI = 6;
    private static final double FREE_PASSAGE_LOSS_PSI = 1;

    private static final double INLET_SECONDS = 0.15;
    private static final double RUNNING_SAG_PSI = 2.5;
    private static final double INLET_STROKE_DIP_PSI = 1;

    /** Inlet pressure lost per psi/s that the line would rise at without air: the filling. */
    private static final double PULL_PER_RISE = 0.11;

    private static final double MOST_PULL_SHARE = 0.6;
    private static final double PULL_SECONDS = 0.15;
    private static final double STARVED_VACUUM_PSI = -6;
    private static final double STARVING_BELOW_PSI = 6;
    private static final double DRAIN_SECONDS = 2;

    /** Square-root law of the bleed: 100 psi fall to a quarter in about 4.5 s. */
    private static final double BLEED = 2.2;

    /** How much a line full of air at atmosphere is softer than one without. */
    private static final double AIR_SOFTNESS = 80;

    private static final double PURGE_SECONDS = 30;
    private static final double LEAST_AIR = 1e-3;

    private static final double FILTER_LOSS_PSI = 2;
    private static final double FILTER_SECONDS = 0.08;

    private final LineSettings settings;
    private final Random random;
    private final Strokes strokes;
    private final Map<Fault, Double> faults = new EnumMap<>(Fault.class);

    private final Lag supplyShare = new Lag(1);
    private final Lag speed = new Lag(0);
    private final Lag load = new Lag(0);
    private final Lag pull = new Lag(0);
    private final Lag inlet;
    private final Lag boosted = new Lag(0);
    private final Lag filtered = new Lag(0);

    private boolean running;
    private double sinceStart;
    private double sinceLevel;
    private double valve;
    private double wander;
    private double stroke;
    private double fillRate;

    public FirstOrderLine(LineSettings settings, long seed) {
        this.settings = requireNonNull(settings, "settings");
        random = new Random(seed);
        strokes = new Strokes(random);
        inlet = new Lag(settings.supplyPsi());
    }

    @Override
    public void start() {
        if (!running) {
            running = true;
            sinceStart = 0;
            sinceLevel = 0;
        }
    }

    @Override
    public void stop() {
        running = false;
    }

    @Override
    public void strike(Fault fault, double severity) {
        if (!(severity >= 0 && severity <= 1)) {
            throw new IllegalArgumentException(fault + ": severity must be 0 to 1: " + severity);
        }
        faults.put(fault, severity);
    }

    @Override
    public void repair(Fault fault) {
        faults.remove(fault);
    }

    @Override
    public void advance(double seconds) {
        if (!(seconds > 0 && seconds <= 0.0200001)) {
            throw new IllegalArgumentException("step must be above 0 and at most 0.02: " + seconds);
        }
        advanceMachine(seconds);
        advanceSupply(seconds);
        if (valve > VALVE_SHUT) {
            fillAndLift(seconds);
        } else {
            bleed(seconds);
        }
        purge(seconds);
        double loss = FILTER_LOSS_PSI * load.value();
        filtered.follow(Math.max(boosted.value() - loss, 0), FILTER_SECONDS, seconds);
    }

    @Override
    public LineState state() {
        double dip = strokeDipPsi();
        return new LineState(
                inlet.value(),
                Math.max(boosted.value() - dip, 0),
                Math.max(filtered.value() - 1.5 * dip, 0),
                running,
                valve > 0.5);
    }

    private double severity(Fault fault) {
        return faults.getOrDefault(fault, 0.0);
    }

    private boolean has(Fault fault) {
        return severity(fault) > 0;
    }

    private void advanceMachine(double seconds) {
        if (running) {
            sinceStart += seconds;
            boolean levelReached = boosted.value() > LEVEL_SHARE_FOR_STROKES * settings.setPsi();
            sinceLevel = levelReached || sinceLevel > 0 ? sinceLevel + seconds : 0;
        }
        double travel = seconds / VALVE_SECONDS;
        valve = Math.min(1, Math.max(0, valve + (running ? travel : -travel)));
        boolean turning = running && sinceStart > BOOST_DELAY_SECONDS && !has(Fault.NOT_TURNING);
        speed.follow(turning ? 1 : 0, turning ? RUN_UP_SECONDS : COAST_SECONDS, seconds);
        boolean stroking =
                running
                        && (sinceLevel > STROKES_AFTER_LEVEL_SECONDS
                                || sinceStart > STROKES_LATEST_SECONDS);
        load.follow(stroking ? 1 : 0, LOAD_SECONDS, seconds);
        stroke = strokes.advance(stroking, seconds);
    }

    private void advanceSupply(double seconds) {
        double decay = StrictMath.exp(-seconds / WANDER_SECONDS);
        wander = wander * decay + WANDER_PSI * Math.sqrt(1 - decay * decay) * random.nextGaussian();
        supplyShare.follow(1 - severity(Fault.WEAK_SUPPLY), SUPPLY_SECONDS, seconds);
        double supply = Math.max(settings.supplyPsi() * supplyShare.value() + wander, 0);
        double filling = Math.min(PULL_PER_RISE * fillRate, MOST_PULL_SHARE * supply);
        pull.follow(filling, PULL_SECONDS, seconds);
        if (has(Fault.WATER_SHUT)) {
            starve(seconds);
            return;
        }
        double weakness = 1 + 2 * severity(Fault.WEAK_SUPPLY);
        double drawn = load.value() * RUNNING_SAG_PSI * weakness + stroke * INLET_STROKE_DIP_PSI;
        inlet.follow(supply - drawn - pull.value(), INLET_SECONDS, seconds);
    }

    /** What is trapped behind a shut hand valve stays until the line takes it, or a leak does. */
    private void starve(double seconds) {
        if (valve > VALVE_SHUT) {
            inlet.follow(STARVED_VACUUM_PSI, INLET_SECONDS, seconds);
        } else if (inlet.value() < 0 || has(Fault.LEAKING_VALVE)) {
            inlet.follow(0, DRAIN_SECONDS, seconds);
        }
    }

    private void fillAndLift(double seconds) {
        double timeConstant = speed.value() > 0.5 ? LIFT_SECONDS : FILL_SECONDS / valve;
        double rise = targetPsi() - boosted.value();
        fillRate = Math.max(rise / timeConstant, 0);
        boosted.follow(targetPsi(), timeConstant * softness(), seconds);
    }

    private double targetPsi() {
        double suction = Math.max(inlet.value(), 0);
        double unloaded = 1 + UNLOADED_GAIN * (1 - load.value());
        double starving = Math.min(suction / STARVING_BELOW_PSI, 1);
        double boost =
                BOOST_PSI
                        * (1 - severity(Fault.WORN_BOOSTER))
                        * unloaded
                        * starving
                        * speed.value();
        double loss = FREE_PASSAGE_LOSS_PSI * load.value() * (1 - speed.value());
        double level =
                settings.setPsi()
                        + MOST_ADDED_BY_SETTING_PSI * severity(Fault.SET_TOO_HIGH)
                        + REGULATOR_DROOP_PSI * (1 - load.value());
        return Math.max(Math.min(suction - loss + boost, level), 0);
    }

    private void bleed(double seconds) {
        fillRate = 0;
        double share = Math.min(severity(Fault.LEAKING_VALVE), 0.98);
        double leak = Math.sqrt(share / (1 - share));
        double before = Math.max(inlet.value(), 0);
        double outflow = rootFlow(boosted.value()) - leak * rootFlow(before - boosted.value());
        double fallen = boosted.value() - BLEED * outflow / softness() * seconds;
        boosted.set(Math.max(fallen, 0));
    }

    /** Flow through an opening, made linear near 0 so that a step cannot overshoot. */
    private static double rootFlow(double psi) {
        return psi / Math.sqrt(Math.abs(psi) + 1);
    }

    /** Air is squeezed small by pressure: a line with air is soft at first and stiff later. */
    private double softness() {
        double squeezed = ATMOSPHERE_PSI / (Math.max(boosted.value(), 0) + ATMOSPHERE_PSI);
        return 1 + AIR_SOFTNESS * severity(Fault.AIR) * squeezed * squeezed;
    }

    private void purge(double seconds) {
        if (has(Fault.AIR)) {
            double left =
                    severity(Fault.AIR) * StrictMath.exp(-seconds * load.value() / PURGE_SECONDS);
            faults.put(Fault.AIR, left < LEAST_AIR ? 0 : left);
        }
    }

    private double strokeDipPsi() {
        double worn = severity(Fault.WORN_BOOSTER);
        double depth = STROKE_DIP_PSI + STROKE_DIP_WORN_PSI * worn;
        double share = Math.min(boosted.value() / settings.setPsi(), 1);
        return depth * share * stroke;
    }
}
