/**
 * What to check first on a finding; the words for it are in room {@code words}.
 *
 * <p>Core room: uses {@code rule} and {@code java.base}; no I/O. All types are immutable.
 */
package leat.diagnose;
