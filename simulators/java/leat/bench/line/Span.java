package leat.bench.line;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.ode.sampling.ODEStateInterpolator;

/**
 * A stretch of solved time in which nothing was switched: any moment of it can be had, in order.
 * Thread-confined.
 */
final class Span {

    private final List<ODEStateInterpolator> steps = new ArrayList<>();
    private int current;

    void add(ODEStateInterpolator step) {
        steps.add(step);
    }

    double seconds() {
        return steps.get(steps.size() - 1).getCurrentState().getTime();
    }

    /**
     * The state at a moment.
     *
     * @param seconds since the begin of the span; never before an earlier call's
     */
    double[] at(double seconds) {
        while (current < steps.size() - 1
                && steps.get(current).getCurrentState().getTime() < seconds) {
            current++;
        }
        return steps.get(current).getInterpolatedState(seconds).getCompleteState();
    }

    double[] end() {
        return steps.get(steps.size() - 1).getCurrentState().getCompleteState();
    }
}
