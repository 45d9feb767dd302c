/**
 * One supervised connection to an MQTT 3.1.1 broker, shared by the source that reads from it and
 * the route that writes to it. The client library's types stop here.
 *
 * <p>May use {@code signal} and {@code config}. Each connection has one thread of its own besides
 * the library's; {@code MqttLink} is thread-safe.
 */
package leat.mqtt;
