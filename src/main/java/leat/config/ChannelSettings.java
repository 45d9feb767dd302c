package leat.config;

import static java.util.Objects.requireNonNull;

import leat.signal.Channel;
import leat.signal.Conversion;

/**
 * One channel: where its number comes from and how it becomes a reading.
 *
 * @param channel its role
 * @param connection name of the connection that delivers it
 * @param point where at that connection
 * @param conversion from the delivered number to psi or 0 / 1
 */
public record ChannelSettings(
        Channel channel, String connection, Point point, Conversion conversion) {

    public ChannelSettings {
        requireNonNull(channel, "channel");
        requireNonNull(connection, "connection");
        requireNonNull(point, "point");
        requireNonNull(conversion, "conversion");
    }
}
