/**
 * Replay: hosts a watch over a past, a recording or a span of the store, and keeps what it says for
 * a person or a script. The same past under the same limits always gives the same account.
 *
 * <p>May use the core rooms, {@code config}, {@code store} and {@code report}. Memory grows with
 * the number of outcomes, not with the number of readings. Everything is thread-confined or
 * immutable.
 */
package leat.replay;
