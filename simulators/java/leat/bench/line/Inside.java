package leat.bench.line;

/**
 * What is true inside a line where no gauge is.
 *
 * @param suctionPsi gauge, right before the booster; far below 0 where it starves
 * @param suppliedLitresPerMinute from the main
 * @param bypassedLitresPerMinute back through the regulator
 * @param drawnLitresPerMinute by the intensifier
 * @param leakedLitresPerMinute to the floor
 * @param pumpSpeed share of the booster's nominal speed
 * @param airMl air in the line, at one atmosphere
 */
public record Inside(
        double suctionPsi,
        double suppliedLitresPerMinute,
        double bypassedLitresPerMinute,
        double drawnLitresPerMinute,
        double leakedLitresPerMinute,
        double pumpSpeed,
        double airMl) {}
