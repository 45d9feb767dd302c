/**
 * What to check first on a finding, and with which caution.
 *
 * <p>Core room: uses {@code rule} and {@code java.base}; no I/O. All types are immutable.
 */
package leat.diagnose;
