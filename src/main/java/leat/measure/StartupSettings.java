package leat.measure;

/**
 * What is asked of the measurement of a start.
 *
 * @param minInletPsi no ratio is measured below this inlet pressure
 * @param fixedLevelPsi pressure that the rise is also timed to, the same for every start
 * @param hasInlet whether the machine has a gauge before the booster
 */
public record StartupSettings(double minInletPsi, double fixedLevelPsi, boolean hasInlet) {}
