/**
 * {@code site.yaml} to a typed, validated {@code Site}; every mistake with file, line, column, what
 * was read and what is allowed.
 *
 * <p>May use {@code signal} and {@code rule}. All records are immutable.
 */
package leat.config;
