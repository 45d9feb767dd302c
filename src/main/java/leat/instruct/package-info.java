/**
 * What people may ask of leat, with every check that both ways of asking make: {@code Requests}.
 * The command line goes through it, and so do instructions that people's programs send by MQTT,
 * each signed with the person's own token. What is asked for is left in the box of the store, and
 * the daemon takes it up from there.
 *
 * <p>May use {@code signal}, {@code config}, {@code mqtt} and {@code store}. {@code Requests}
 * belongs to the thread of its box. {@code Reception} is fed from a thread of the MQTT library and
 * worked by one thread of the daemon.
 */
package leat.instruct;
