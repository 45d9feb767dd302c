/**
 * What people and scripts read: tables for the terminal and JSON documents.
 *
 * <p>May use the core rooms and {@code store}'s rows. All types are immutable or thread-confined.
 */
package leat.report;
