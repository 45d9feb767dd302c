package leat.measure.fit;

import leat.measure.Absence;

/**
 * Which of the two curves describes a rise, and what is left over. Immutable.
 *
 * @param first first order after a dead time
 * @param second second order after a dead time; absent where the first order leaves only noise
 * @param secondOrder whether the second order is worth its further parameter: by an F test not by
 *     chance (0.1 %), strict because it counts on independent noise
 * @param leftOver what is left by the better of the two; absent where neither could be fitted
 */
public record RiseShape(
        Attempt<FopdtFit> first,
        Attempt<SecondOrderFit> second,
        boolean secondOrder,
        Attempt<ResidualPattern> leftOver) {

    private static final double BY_CHANCE = 0.001;

    /** Fits the first order, and where that leaves a shape over also the second; base free. */
    public static RiseShape of(RiseSamples samples) {
        Attempt<FopdtFit> first = FopdtFit.withBase(samples);
        if (first.isPresent() && ResidualPattern.of(first.get()) == ResidualPattern.NOISE) {
            return new RiseShape(
                    first,
                    Attempt.absent(Absence.FIRST_ORDER_IS_ENOUGH),
                    false,
                    Attempt.of(ResidualPattern.NOISE));
        }
        Attempt<SecondOrderFit> second = SecondOrderFit.withBase(samples);
        boolean better =
                second.isPresent() && (!first.isPresent() || better(first.get(), second.get()));
        Attempt<ResidualPattern> leftOver =
                better
                        ? second.then(fit -> Attempt.of(ResidualPattern.of(fit)))
                        : first.then(fit -> Attempt.of(ResidualPattern.of(fit)));
        return new RiseShape(first, second, better, leftOver);
    }

    private static boolean better(FopdtFit first, SecondOrderFit second) {
        Regression one = first.regression();
        Regression two = second.regression();
        return one.size() == two.size()
                && ResidualPattern.byChance(one.residualSquares(), one.freeParameters(), two)
                        < BY_CHANCE;
    }
}
