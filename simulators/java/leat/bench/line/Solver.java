package leat.bench.line;

import java.util.Arrays;
import leat.bench.water.Units;
import org.hipparchus.ode.ExpandableODE;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.nonstiff.DormandPrince54Integrator;

/**
 * Solves the equations of a line over one span with Dormand and Prince's method of order 5, whose
 * steps follow the error, and keeps the steps so that any moment can be had. Thread-confined.
 */
final class Solver {

    /**
     * About what the method can take of the quickest part of a line. Without it the steps at rest
     * grow until they just begin to swing, and swings lose water.
     */
    private static final double LONGEST_STEP = 0.02;

    private static final double SHORTEST_STEP = 1e-10;
    private static final double FIRST_STEP = 1e-3;

    /**
     * Error allowed to one step, before {@code tolerance} is applied. So small because errors of
     * the piston add up over strokes, and a stroke that is a millisecond late shows.
     */
    private static final double PRESSURE = 6e-6 * Units.PSI;

    private static final double FLOW = 1.2e-11;
    private static final double SHARE = 6e-8;
    private static final double AIR = 6e-12;

    /** What has been counted is a sum of flows, which are watched themselves. */
    private static final double COUNTED = 1;

    private static final int MOST_EVALUATIONS = 1_000_000;

    private final ExpandableODE equations;
    private final DormandPrince54Integrator integrator;
    private Span span = new Span();

    /**
     * @param tolerance 1 for the usual one, less for a stricter
     */
    Solver(LineEquations equations, double tolerance, Crossing... crossings) {
        this.equations = new ExpandableODE(equations);
        double[] absolute = allowed();
        for (int slot = 0; slot < absolute.length; slot++) {
            absolute[slot] *= tolerance;
        }
        integrator =
                new DormandPrince54Integrator(
                        SHORTEST_STEP, LONGEST_STEP, absolute, new double[Slot.COUNT]);
        integrator.setInitialStepSize(FIRST_STEP);
        integrator.setMaxEvaluations(MOST_EVALUATIONS);
        integrator.addStepHandler(step -> span.add(step));
        for (Crossing crossing : crossings) {
            integrator.addEventDetector(crossing);
        }
    }

    private static double[] allowed() {
        double[] allowed = new double[Slot.COUNT];
        Arrays.fill(allowed, COUNTED);
        allowed[Slot.SUPPLY_FLOW] = FLOW;
        allowed[Slot.INLET] = PRESSURE;
        allowed[Slot.SUCTION] = PRESSURE;
        allowed[Slot.BOOSTED] = PRESSURE;
        allowed[Slot.FILTERED] = PRESSURE;
        allowed[Slot.LIFT] = SHARE;
        allowed[Slot.MOTOR] = SHARE;
        allowed[Slot.PUMP] = SHARE;
        allowed[Slot.LOAD] = SHARE;
        allowed[Slot.PISTON] = SHARE;
        allowed[Slot.AIR] = AIR;
        return allowed;
    }

    /**
     * Solves from a state on, up to {@code seconds} later or to where a crossing stops it.
     *
     * @param seconds above 0
     */
    Span solve(double[] state, double seconds) {
        span = new Span();
        integrator.integrate(equations, new ODEState(0, state), seconds);
        return span;
    }
}
