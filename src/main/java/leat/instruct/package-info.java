/**
 * Instructions that people's programs send by MQTT, each signed with the person's own token. What
 * is followed goes through the same box in the store as an instruction of the command line, and the
 * daemon takes it up from there.
 *
 * <p>May use {@code signal}, {@code config}, {@code mqtt} and {@code store}. {@code Reception} is
 * fed from a thread of the MQTT library and worked by one thread of the daemon.
 */
package leat.instruct;
