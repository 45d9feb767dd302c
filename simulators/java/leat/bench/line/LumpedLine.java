package leat.bench.line;

import static java.util.Objects.requireNonNull;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import leat.bench.water.Units;

/**
 * A feed line out of lumped parts between which water is conserved: main, strainer, shut-off valve,
 * booster with its motor, regulator, hoses with air in them, filters, intensifier. Time is solved
 * ahead in spans between switchings, and what is asked for is read off the solution; a command cuts
 * the span short. So the pressures do not depend on how time is cut into steps.
 *
 * <p>Not in it: travelling waves (the supply line is one lump of water on one spring), heat, air
 * coming out of solution. Thread-confined; the same seed and calls give the same pressures to the
 * last bit.
 */
public final class LumpedLine implements FeedLine {

    private static final double LONGEST_SPAN = 2;

    /** How far to look ahead after a command: another may come soon, and what is solved is lost. */
    private static final double SPAN_AFTER_COMMAND = 0.05;

    /** Two edges nearer than this are one. */
    private static final double SHORTEST_SPAN = 1e-6;

    private final LineSettings settings;
    private final Plumbing parts;
    private final LineEquations equations;
    private final LineFlows flows = new LineFlows();
    private final Crossing level = new Crossing(Slot.BOOSTED, Units.PSI);
    private final Crossing reversal = new Crossing(Slot.PISTON, 1);
    private final Solver solver;
    private final Map<Fault, Double> struck = new EnumMap<>(Fault.class);
    private final double storedAtFirst;
    private double began;
    private double into;
    private double ahead = LONGEST_SPAN;
    private double[] state = new double[Slot.COUNT];
    private Optional<Span> span = Optional.empty();

    public LumpedLine(LineSettings settings, long seed) {
        this(settings, seed, 1);
    }

    /**
     * Likewise with that many times the usual error allowed to a step of the solver, for whoever
     * plays days of many machines: 100 moves no pressure by more than 0.1 psi.
     *
     * @param tolerance above 0
     */
    public LumpedLine(LineSettings settings, long seed, double tolerance) {
        this.settings = requireNonNull(settings, "settings");
        parts = new Plumbing(settings, seed);
        equations = new LineEquations(parts);
        solver = new Solver(equations, tolerance, level, reversal);
        state[Slot.INLET] = parts.supply.pressure(0);
        state[Slot.AIR] = parts.air.usual();
        storedAtFirst = parts.stored(state);
    }

    @Override
    public void start() {
        if (!parts.sequence.isRunning()) {
            double now = part();
            parts.sequence.start(now);
            parts.valve.drive(true, now);
        }
    }

    @Override
    public void stop() {
        if (parts.sequence.isRunning()) {
            double now = part();
            parts.sequence.stop();
            parts.intensifier.end();
            parts.valve.drive(false, now);
        }
    }

    @Override
    public void cut() {
        jet(true);
    }

    @Override
    public void pause() {
        jet(false);
    }

    private void jet(boolean on) {
        if (on != parts.intensifier.isOpen()) {
            part();
            parts.intensifier.open(on);
        }
    }

    @Override
    public void strike(Fault fault, double severity) {
        if (!(severity >= 0 && severity <= 1)) {
            throw new IllegalArgumentException(fault + ": severity must be 0 to 1: " + severity);
        }
        struck.put(fault, severity);
        apply(fault, severity);
    }

    @Override
    public void repair(Fault fault) {
        if (struck.remove(fault) != null) {
            apply(fault, 0);
        }
    }

    private void apply(Fault fault, double severity) {
        double now = part();
        Runnable change =
                switch (fault) {
                    case WORN_BOOSTER -> () -> parts.booster.wear(severity);
                    case NOT_TURNING -> () -> parts.coupling.breakApart(severity);
                    case COUPLING_SLIPS -> () -> parts.coupling.slip(severity, now);
                    case WEAK_SUPPLY -> () -> parts.supply.weaken(severity, now);
                    case WATER_SHUT -> () -> parts.supplyLine.shut(severity);
                    case LEAKING_VALVE -> () -> parts.valve.leak(severity);
                    case SLOW_VALVE -> () -> parts.valve.slow(severity, now);
                    case PART_OPEN_VALVE -> () -> parts.valve.limit(severity, now);
                    case CLOGGED_STRAINER -> () -> parts.supplyLine.clog(severity);
                    case CLOGGED_FILTER -> () -> parts.filters.clog(severity);
                    case SET_TOO_LOW -> () -> parts.regulator.setTooLow(severity);
                    case SET_TOO_HIGH -> () -> parts.regulator.setTooHigh(severity);
                    case STICKING_REGULATOR -> () -> parts.regulator.stick(severity);
                    case AIR -> () -> putAir(parts.air.afterService(severity));
                    case EXTERNAL_LEAK -> () -> parts.openings.leak(severity);
                };
        change.run();
    }

    /** Air takes the place of water, which goes where the air came from; pressures stand. */
    private void putAir(double air) {
        double before = parts.stored(state);
        state[Slot.AIR] = air;
        state[Slot.DRAINED] += before - parts.stored(state);
    }

    /** Any step above 0: long ones cost no more than what happens in them. */
    @Override
    public void advance(double seconds) {
        if (!(seconds > 0 && seconds < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("step must be above 0 and finite: " + seconds);
        }
        double target = into + seconds;
        Span solved = solved();
        while (target > solved.seconds()) {
            target -= solved.seconds();
            finish(solved);
            solved = solved();
        }
        into = target;
    }

    @Override
    public LineState state() {
        double[] y = span.isPresent() ? span.get().at(into) : state;
        double now = began + into;
        flows.at(now, y, parts);
        Inside inside =
                new Inside(
                        y[Slot.SUCTION] / Units.PSI,
                        y[Slot.SUPPLY_FLOW] / Units.LITRE_PER_MINUTE,
                        flows.bypassed / Units.LITRE_PER_MINUTE,
                        flows.drawn / Units.LITRE_PER_MINUTE,
                        flows.leaked / Units.LITRE_PER_MINUTE,
                        y[Slot.PUMP],
                        y[Slot.AIR] / Units.MILLILITRE);
        return new LineState(
                y[parts.inletSlot] / Units.PSI,
                y[Slot.BOOSTED] / Units.PSI,
                y[Slot.FILTERED] / Units.PSI,
                parts.sequence.isRunning(),
                parts.valve.position(now) > ShutOffValve.OFF_ITS_SEAT,
                parts.intensifier.isCutting(),
                Optional.of(inside));
    }

    @Override
    public double missingWaterShare() {
        return balance().missingShare();
    }

    /** The water of the line since it was made. */
    WaterBalance balance() {
        double[] y = span.isPresent() ? span.get().at(into) : state;
        return new WaterBalance(
                y[Slot.TAKEN],
                y[Slot.DRAWN] + y[Slot.BLED] + y[Slot.LEAKED] + y[Slot.DRAINED],
                parts.stored(y) - storedAtFirst);
    }

    /** Ends the solved span at the present moment, so that something may be changed now. */
    private double part() {
        if (span.isPresent()) {
            state = span.get().at(into);
            span = Optional.empty();
            ahead = SPAN_AFTER_COMMAND;
        }
        began += into;
        into = 0;
        return began;
    }

    /** The span that the present moment lies in. */
    private Span solved() {
        if (span.isEmpty()) {
            double levelPressure = Sequence.REACHED_SHARE * settings.setPsi() * Units.PSI;
            if (parts.sequence.awaitsLevel() && state[Slot.BOOSTED] >= levelPressure) {
                parts.sequence.levelReached(began);
            }
            if (parts.intensifier.isDrawing() && state[Slot.PISTON] >= 1) {
                reverse();
            }
            level.arm(parts.sequence.awaitsLevel(), levelPressure);
            reversal.arm(parts.intensifier.isDrawing(), 1);
            equations.beginAt(began);
            double seconds = Math.min(parts.nextEdge(began) - began, ahead);
            span = Optional.of(solver.solve(state, Math.max(seconds, SHORTEST_SPAN)));
        }
        return span.get();
    }

    /** Goes to the end of a span and does what ended it. */
    private void finish(Span solved) {
        state = solved.end();
        began += solved.seconds();
        into = 0;
        span = Optional.empty();
        ahead = Math.min(2 * ahead, LONGEST_SPAN);
        parts.pass(began);
        if (reversal.isFound()) {
            reverse();
        }
        if (level.isFound()) {
            parts.sequence.levelReached(began);
        }
    }

    private void reverse() {
        state[Slot.PISTON] = 0;
        parts.intensifier.reverse(began);
    }
}
