/**
 * {@code Watch}: the fold. One per machine; a deterministic function of the inputs it is fed.
 *
 * <p>Core room: uses the core rooms and {@code java.base}; no clock, thread, file, network or
 * randomness. A watch is thread-confined to its host.
 */
package leat.watch;
