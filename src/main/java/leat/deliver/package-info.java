/**
 * Messages and the ways that they go out: what a change of an alarm says, which routes it is owed
 * to, and one courier per route that delivers from the outbox, at least once and in order.
 *
 * <p>May use the core rooms, {@code config} and {@code mqtt}; the outbox is a port that {@code
 * service} fulfils over the store. A message that is owed was committed together with the change
 * that it tells of.
 */
package leat.deliver;
