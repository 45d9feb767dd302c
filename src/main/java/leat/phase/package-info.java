/**
 * What the feed line is doing: rest, rise, steady, fall or blind; found from the pressures alone,
 * or with a run signal where wired.
 *
 * <p>Core room: uses {@code signal} and {@code java.base}. Thread-confined to one watch.
 */
package leat.phase;
