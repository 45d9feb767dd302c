package leat.watch;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

/**
 * What one run shows on gauges without noise; NaN where it was too short for it. Pressures psi.
 *
 * @param loadedPsi median boosted pressure while the jet is on
 * @param unloadedPsi likewise while the level stands and the jet is off
 * @param inletRestPsi inlet when the run began
 * @param inletPsi median inlet while the jet is on, or where it never is, while running
 * @param lowestInletPsi lowest mean of a second from 5 s after the start on
 * @param lossPsi median of boosted less filtered while the jet is on
 * @param riseSeconds 10 to 90 % of the climb; NaN where it climbed by less than 10 psi
 * @param deadSeconds from the contactor to 10 % of the climb
 * @param reachedSeconds from the contactor to 90 % of the climb; infinite where there was none
 * @param wanderPsi standard deviation of the mean of 1.5 s while the jet is on
 * @param fallSeconds from the stop to a quarter
 * @param restPsi boosted before the next start
 * @param fallingPsi by how much it fell in the last ten seconds before
 * @param loadedSeconds for how long the jet was on, the first seconds not counted
 */
record Seen(
        double loadedPsi,
        double unloadedPsi,
        double inletRestPsi,
        double inletPsi,
        double lowestInletPsi,
        double lossPsi,
        double riseSeconds,
        double deadSeconds,
        double reachedSeconds,
        double wanderPsi,
        double fallSeconds,
        double restPsi,
        double fallingPsi,
        double loadedSeconds) {

    double sagPsi() {
        return inletRestPsi - inletPsi;
    }

    double ratio() {
        return loadedPsi / inletPsi;
    }

    /** The middle of several runs, figure by figure. */
    static Seen middle(List<Seen> runs) {
        return new Seen(
                middle(runs, Seen::loadedPsi),
                middle(runs, Seen::unloadedPsi),
                middle(runs, Seen::inletRestPsi),
                middle(runs, Seen::inletPsi),
                middle(runs, Seen::lowestInletPsi),
                middle(runs, Seen::lossPsi),
                middle(runs, Seen::riseSeconds),
                middle(runs, Seen::deadSeconds),
                middle(runs, Seen::reachedSeconds),
                middle(runs, Seen::wanderPsi),
                middle(runs, Seen::fallSeconds),
                middle(runs, Seen::restPsi),
                middle(runs, Seen::fallingPsi),
                runs.stream().mapToDouble(Seen::loadedSeconds).sum());
    }

    private static double middle(List<Seen> runs, ToDoubleFunction<Seen> figure) {
        double[] known = runs.stream().mapToDouble(figure).filter(v -> !Double.isNaN(v)).toArray();
        Arrays.sort(known);
        return known.length == 0 ? Double.NaN : known[known.length / 2];
    }

    String words() {
        return String.format(
                Locale.ROOT,
                "loaded %.1f unloaded %.1f inlet %.1f>%.1f lowest %.1f loss %.1f rise %.2f dead %.2f"
                        + " reached %.1f wander %.2f fall %.1f rest %.1f loaded for %.0f s",
                loadedPsi,
                unloadedPsi,
                inletRestPsi,
                inletPsi,
                lowestInletPsi,
                lossPsi,
                riseSeconds,
                deadSeconds,
                reachedSeconds,
                wanderPsi,
                fallSeconds,
                restPsi,
                loadedSeconds);
    }
}
