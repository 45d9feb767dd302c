/**
 * Reads transducers and contacts from Modbus TCP devices: function codes 1 to 4, and no other,
 * ever.
 *
 * <p>From the outside in: {@link leat.acquire.modbus.ModbusSource} is one connection, {@link
 * leat.acquire.modbus.PollingThread} gives each its turn, {@code Poller} decides what one poll
 * does, {@code Link} alone has a socket, {@code Frames} alone knows the bytes.
 *
 * <p>May use {@code signal}, {@code config}, {@code work} and {@code acquire}. All sources share
 * one thread; everything that is not public is confined to it unless it says otherwise.
 */
package leat.acquire.modbus;
