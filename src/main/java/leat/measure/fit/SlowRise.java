package leat.measure.fit;

import java.util.Optional;

/**
 * Duration and 90 % instant of a rise that was sampled too slowly to read them off between the
 * samples. Immutable.
 *
 * <p>The 10 % crossing found by a straight line between two readings is smeared into the flat
 * before the rise: with a reading every 1.25 time constants the duration comes out up to 35 % too
 * long, with one every quarter of it up to 2 % (computed for a first-order rise at all phases
 * between rise and sampling). So beyond a quarter of the time constant between two readings this is
 * taken instead of the interpolation, and within it the interpolation, which supposes no shape.
 *
 * <p>It may be used only where the rise is first order after a dead time, which so few readings
 * cannot show by themselves: it is refused where what the curve leaves over is more than 3 % of the
 * amplitude (figure of this code, no source), or a shape and not noise.
 *
 * @param durationSeconds 10 to 90 %
 * @param reach90Second when 90 % is reached, on the time scale of the readings
 */
public record SlowRise(Estimate durationSeconds, Estimate reach90Second) {

    /** Readings this far apart, in time constants, are too far for a straight line. */
    private static final double FARTHEST = 0.25;

    private static final double MOST_LEFT_OVER = 0.03;

    /** Empty where no curve fits, or the readings are close enough to be read off. */
    public static Optional<SlowRise> of(RiseSamples samples) {
        return FopdtFit.of(samples)
                .filter(fit -> samples.intervalSeconds() > FARTHEST * fit.timeConstant())
                .filter(SlowRise::isFirstOrder)
                .map(fit -> new SlowRise(fit.durationSeconds(), fit.reach90Second()));
    }

    private static boolean isFirstOrder(FopdtFit fit) {
        return !fit.leavesShape() && fit.residualSdPsi() <= MOST_LEFT_OVER * fit.amplitudePsi();
    }
}
