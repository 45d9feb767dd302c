/**
 * How work is done that never ends: {@code Worker} owns the thread of something that is done again
 * and again, {@code Trouble} and {@code KnownFaults} keep a log from being told the same thing
 * twice. Knows nothing of machines or pressures.
 *
 * <p>Uses no other room. Whatever has a thread of its own for as long as the daemon runs uses this
 * one: {@code acquire}, {@code mqtt}, {@code deliver}, {@code instruct} and {@code service}. Each
 * class says its thread rule.
 */
package leat.work;
