package leat.bench.line;

import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.BracketedUnivariateSolver;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.ode.ODEStateAndDerivative;
import org.hipparchus.ode.events.Action;
import org.hipparchus.ode.events.AdaptableInterval;
import org.hipparchus.ode.events.ODEEventDetector;
import org.hipparchus.ode.events.ODEEventHandler;

/**
 * Stops the solver where one place of the state rises through a limit. It looks at the ends of the
 * solver's steps: what crosses twice within one of them is missed. Thread-confined.
 */
final class Crossing implements ODEEventDetector {

    private static final double CONVERGENCE_SECONDS = 1e-9;
    private static final double BEYOND_ANY_STEP_SECONDS = 10;
    private static final int MOST_ROUNDS = 100;

    private final int slot;
    private final double scale;
    private final BracketedUnivariateSolver<UnivariateFunction> solver =
            new BracketingNthOrderBrentSolver(1e-14, CONVERGENCE_SECONDS, 1e-15, 5);
    private double limit;
    private boolean armed;
    private boolean found;

    /**
     * @param scale what counts as much in that place, in its unit
     */
    Crossing(int slot, double scale) {
        this.slot = slot;
        this.scale = scale;
    }

    void arm(boolean on, double newLimit) {
        armed = on;
        limit = newLimit;
        found = false;
    }

    /** Whether the solver was stopped here since it was armed. */
    boolean isFound() {
        return found;
    }

    @Override
    public double g(ODEStateAndDerivative state) {
        return armed ? (state.getCompleteState()[slot] - limit) / scale : -1;
    }

    @Override
    public ODEEventHandler getHandler() {
        return (state, detector, increasing) -> {
            found |= increasing;
            return increasing ? Action.STOP : Action.CONTINUE;
        };
    }

    @Override
    public AdaptableInterval getMaxCheckInterval() {
        return (state, forward) -> BEYOND_ANY_STEP_SECONDS;
    }

    @Override
    public int getMaxIterationCount() {
        return MOST_ROUNDS;
    }

    @Override
    public BracketedUnivariateSolver<UnivariateFunction> getSolver() {
        return solver;
    }
}
