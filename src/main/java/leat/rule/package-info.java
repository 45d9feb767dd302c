/**
 * Thresholds with grade, phases in which they are armed, delays and deadbands: from a measurement
 * to a finding.
 *
 * <p>Core room: uses {@code signal}, {@code phase}, {@code measure} and {@code java.base}. Rules
 * are thread-confined to their watch.
 */
package leat.rule;
