/**
 * Readings that come as MQTT messages: payload to reading, and the silence of a channel.
 *
 * <p>May use {@code signal}, {@code config}, {@code acquire} and {@code mqtt}.
 */
package leat.acquire.mqtt;
