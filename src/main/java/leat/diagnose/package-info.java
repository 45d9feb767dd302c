/**
 * What may be behind a finding, and what to check first with which caution.
 *
 * <p>Core room: uses {@code measure}, {@code rule} and {@code java.base}; no I/O. All types are
 * immutable.
 */
package leat.diagnose;
