package leat.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.absence.Absence;
import leat.measure.fit.Attempt;
import leat.measure.fit.Estimate;
import leat.measure.fit.FopdtFit;
import leat.measure.fit.ResidualPattern;
import leat.measure.fit.RiseSamples;
import leat.measure.fit.RiseShape;
import leat.measure.fit.SecondOrderFit;
import leat.measure.fit.SlowRise;

/**
 * What curves of first and second order say of a climb: their parameters, the shape that they leave
 * over, and the rise itself where it was sampled too slowly to be read off.
 *
 * @param samples the readings, from before the start
 * @param zeroSecond the start on their time scale
 * @param climb as read off the curve
 * @param boost its shape from the inlet pressure on
 * @param untilSecond where the strokes begin or the readings end
 */
record ClimbFits(
        RiseSamples samples,
        double zeroSecond,
        Crossings climb,
        Ramp.Shape boost,
        double untilSecond) {

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
     * Adds its figures.
     *
     * @return what a person should know of them
     */
    List<ClimbRemark> into(Map<Measurand, Figure> figures) {
        RiseSamples rise = samples.around(zeroSecond - BEFORE_SECONDS, lastSecond());
        RiseShape shape = RiseShape.of(rise);
        Attempt<FopdtFit> first = told(shape.first(), shape.leftOver());
        Attempt<SecondOrderFit> second = shape.second();
        List<ClimbRemark> remarks = new ArrayList<>();
        if (!first.isPresent()) {
            remarks.add(ClimbRemark.noCurve(first.absentBecause()));
        }
        put(figures, Measurand.TIME_CONSTANT, first.then(f -> Attempt.of(f.timeConstantSeconds())));
        figures.put(
                Measurand.FIT_DELAY,
                first.isPresent()
                        ? Figure.of(
                                first.get().delaySecond().value() - zeroSecond,
                                first.get().delaySecond().halfWidth95())
                        : Figure.absent(first.absentBecause()));
        figures.put(
                Measurand.FIT_RESIDUAL,
                first.isPresent()
                        ? Figure.of(first.get().residualSdPsi())
                        : Figure.absent(first.absentBecause()));
        put(figures, Measurand.DAMPING, second.then(f -> Attempt.of(f.dampingRatio())));
        put(
                figures,
                Measurand.NATURAL_FREQUENCY,
                second.then(f -> Attempt.of(hertz(f.frequencyPerSecond()))));
        if (first.isPresent()) {
            shape.leftOver().result().ifPresent(pattern -> leftOver(pattern, remarks));
        }
        if (climb.fitInstead()) {
            first.then(SlowRise::of).result().ifPresent(slow -> instead(slow, figures, remarks));
        }
        return remarks;
    }

    /**
     * A climb that was seen to its end, and that no curve fits down to the noise, has a shape that
     * is the reason.
     */
    private Attempt<FopdtFit> told(Attempt<FopdtFit> first, Attempt<ResidualPattern> leftOver) {
        boolean seen = climb.t90().isPresent() && climb.t90().get() < lastSecond();
        boolean fits =
                first.isPresent()
                        ? leftOver.result().map(ClimbFits::isNoise).orElse(true)
                        : !first.absence().equals(Optional.of(Absence.NOT_LEVELLED));
        if (!seen || fits) {
            return first;
        }
        return switch (boost) {
            case STRAIGHT -> Attempt.absent(Absence.STRAIGHT_RAMP);
            case QUICKENING -> Attempt.absent(Absence.EVER_FASTER);
            case SLOWING, UNKNOWN -> first;
        };
    }

    private static boolean isNoise(ResidualPattern pattern) {
        return pattern == ResidualPattern.NOISE || pattern == ResidualPattern.TOO_FEW;
    }

    private double lastSecond() {
        double enough =
                climb.durationSeconds().isPresent()
                        ? Math.max(LEAST_AFTER_SECONDS, DURATIONS * climb.durationSeconds().get())
                        : Double.POSITIVE_INFINITY;
        double from = climb.t10().isPresent() ? climb.t10().get() : zeroSecond;
        return Math.min(untilSecond, from + enough);
    }

    private void instead(SlowRise slow, Map<Measurand, Figure> figures, List<ClimbRemark> remarks) {
        figures.put(Measurand.RISE, figure(slow.durationSeconds()));
        figures.put(
                Measurand.START_TO_90,
                Figure.of(
                        slow.reach90Second().value() - zeroSecond,
                        slow.reach90Second().halfWidth95()));
        remarks.add(ClimbRemark.of(ClimbRemark.Kind.FROM_CURVE));
    }

    private static void leftOver(ResidualPattern pattern, List<ClimbRemark> remarks) {
        switch (pattern) {
            case NOISE, TOO_FEW -> {
                // the curve tells all there is to tell
            }
            case WAVES -> remarks.add(ClimbRemark.of(ClimbRemark.Kind.SWINGS));
            case STEP -> remarks.add(ClimbRemark.of(ClimbRemark.Kind.TWO_CLIMBS));
            case BEND -> remarks.add(ClimbRemark.of(ClimbRemark.Kind.OTHER_SHAPE));
        }
    }

    private static void put(
            Map<Measurand, Figure> figures, Measurand measurand, Attempt<Estimate> estimate) {
        figures.put(
                measurand,
                estimate.isPresent()
                        ? figure(estimate.get())
                        : Figure.absent(estimate.absentBecause()));
    }

    private static Estimate hertz(Estimate perSecond) {
        double turn = 2 * Math.PI;
        return new Estimate(
                perSecond.value() / turn,
                perSecond.standardError() / turn,
                perSecond.halfWidth95() / turn);
    }

    private static Figure figure(Estimate estimate) {
        return Figure.of(estimate.value(), estimate.halfWidth95());
    }
}
