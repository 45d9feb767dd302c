package leat.deliver;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import leat.config.ChannelSettings;
import leat.config.MachineSettings;
import leat.config.Point;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Contact;
import leat.signal.Transducer;
import leat.signal.TwoPoint;

/** A machine of the invented boatyard whose channels hang on a connection, for tests. */
final class WiredMachine {

    private WiredMachine() {}

    static MachineSettings of(String name, String connection, Channel... channels) {
        return new MachineSettings(
                name,
                Stream.of(channels).map(channel -> wired(channel, connection)).toList(),
                Limits.DEFAULTS);
    }

    /** Both pressures and the contact of the booster. */
    static MachineSettings of(String name, String connection) {
        return of(name, connection, Channel.INLET, Channel.BOOSTED, Channel.RUNNING);
    }

    static List<MachineSettings> boatyard() {
        return List.of(of("jet-1", "plc"), of("jet-2", "plc"));
    }

    private static ChannelSettings wired(Channel channel, String connection) {
        return new ChannelSettings(
                channel,
                connection,
                new Point.Register(
                        1,
                        Point.Table.INPUT_REGISTER,
                        channel.ordinal(),
                        Point.NumberType.UINT16,
                        Point.WordOrder.ABCD),
                channel.isPressure()
                        ? new Transducer(Optional.empty(), TwoPoint.IDENTITY, -1e10, 1e10)
                        : new Contact(false));
    }
}
