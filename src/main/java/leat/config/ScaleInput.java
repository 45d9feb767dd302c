package leat.config;

/**
 * The input side of a scaling point.
 *
 * @param value mA or the bare number
 * @param isCurrent true for mA
 */
record ScaleInput(double value, boolean isCurrent) {}
