/**
 * What people and scripts read: tables for the terminal and JSON documents.
 *
 * <p>Uses {@code signal}, {@code measure}, {@code rule} and {@code alarm}. All types are immutable
 * or thread-confined.
 */
package leat.report;
