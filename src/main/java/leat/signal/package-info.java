/**
 * What a transducer says: channels, readings and their quality, scaling to pressure, units, and the
 * inputs that a watch is fed.
 *
 * <p>Core room: uses {@code java.base} only; no I/O, no clock, no threads. Every type is immutable
 * unless it says otherwise.
 */
package leat.signal;
