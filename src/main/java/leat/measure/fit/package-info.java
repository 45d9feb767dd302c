/**
 * Curves of first and second order through the readings of one rise, with standard errors and what
 * they leave over. Knows arrays of numbers, nothing of the machine; uses Hipparchus. Everything
 * here is immutable.
 */
package leat.measure.fit;
