package leat.measure;

import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import leat.measure.fit.Estimate;
import leat.measure.fit.RiseSamples;
import leat.measure.fit.SlowRise;

/**
 * The rise and the start to 90 % by a curve of first order with dead time, where the readings are
 * too far apart to read them off.
 *
 * @param samples the readings, from before the start; asked for only where they are needed
 * @param zeroSecond the start on their time scale
 * @param climb as read off the readings
 * @param untilSecond where the strokes begin or the readings end
 */
record FittedRise(
        Supplier<RiseSamples> samples, double zeroSecond, Crossings climb, double untilSecond) {

    private static final double BEFORE_SECONDS = 1;

    /** A climb is over, and a curve through it done, after so many of its durations. */
    private static final double DURATIONS = 3;

    private static final double LEAST_AFTER_SECONDS = 1;

    /**
     * The readings of a curve from one time to another, both counted, in seconds from {@code
     * zeroMicros}.
     */
    static RiseSamples samples(Curve curve, long fromMicros, long toMicros, long zeroMicros) {
        int first = curve.indexFrom(fromMicros);
        int end = Math.max(first, curve.indexFrom(toMicros + 1));
        double[] seconds = new double[end - first];
        double[] psi = new double[end - first];
        for (int i = first; i < end; i++) {
            seconds[i - first] = (curve.at(i) - zeroMicros) / 1e6;
            psi[i - first] = curve.psi(i);
        }
        return RiseSamples.of(seconds, psi);
    }

    /**
     * Puts its figures in the place of those that were read off, where they are better.
     *
     * @return the remark that says so; none where the figures stay
     */
    List<ClimbRemark> into(Map<Measurand, Figure> figures) {
        if (!climb.fitInstead()) {
            return List.of();
        }
        return SlowRise.of(samples.get().around(zeroSecond - BEFORE_SECONDS, lastSecond()))
                .map(
                        slow -> {
                            Estimate at90 = slow.reach90Second();
                            figures.put(Measurand.RISE, figure(slow.durationSeconds(), 0));
                            figures.put(Measurand.START_TO_90, figure(at90, zeroSecond));
                            return List.of(new ClimbRemark(ClimbRemark.Kind.FROM_CURVE));
                        })
                .orElse(List.of());
    }

    private double lastSecond() {
        double enough =
                climb.durationSeconds().isPresent()
                        ? Math.max(LEAST_AFTER_SECONDS, DURATIONS * climb.durationSeconds().get())
                        : Double.POSITIVE_INFINITY;
        double from = climb.t10().isPresent() ? climb.t10().get() : zeroSecond;
        return Math.min(untilSecond, from + enough);
    }

    private static Figure figure(Estimate estimate, double since) {
        return Figure.of(estimate.value() - since, estimate.halfWidth95());
    }
}
