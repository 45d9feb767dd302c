/**
 * Panels: simulated field devices that show samples over a real protocol, Modbus TCP or MQTT.
 *
 * <p>Uses {@code leat.bench.scenario}, {@code leat.bench.sensor}, j2mod, Paho. Each panel owns the
 * threads and sockets that it opens and ends them in {@code close}.
 */
package leat.bench.panel;
