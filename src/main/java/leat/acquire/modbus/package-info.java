/**
 * Reads transducers and contacts from Modbus TCP devices: function codes 1 to 4, and no other,
 * ever.
 *
 * <p>From the outside in: {@link leat.acquire.modbus.ModbusSource} owns the thread and the
 * schedule, {@code Poller} decides what one poll does, {@code Link} is the only class that knows
 * the Modbus library and the socket.
 *
 * <p>May use {@code signal}, {@code config} and {@code acquire}. Each source has one thread of its
 * own; everything that is not public is confined to it unless it says otherwise.
 */
package leat.acquire.modbus;
