/**
 * Sources: they deliver readings, and say when a channel falls silent. {@code modbus} and {@code
 * mqtt} are thin adapters over their libraries; driver and socket types stop there. {@code
 * recording} reads and writes files instead.
 *
 * <p>May use {@code signal} and {@code config}; {@code acquire.mqtt} also the room {@code mqtt}.
 */
package leat.acquire;
