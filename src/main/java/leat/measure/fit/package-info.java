/**
 * A first-order curve with dead time through the readings of one rise, with standard errors: it
 * tells the duration where the readings are too far apart for straight lines. Knows arrays of
 * numbers, nothing of the machine; uses Hipparchus. Everything here is immutable.
 */
package leat.measure.fit;
