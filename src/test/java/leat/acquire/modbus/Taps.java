package leat.acquire.modbus;

import java.time.Duration;
import java.util.Optional;
import leat.config.ChannelSettings;
import leat.config.ConnectionSettings.ModbusTcp;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.signal.Channel;
import leat.signal.Contact;
import leat.signal.Conversion;
import leat.signal.Transducer;
import leat.signal.TwoPoint;

/** Settings for tests: registers that hold psi as they are. */
final class Taps {

    static final Conversion PSI = new Transducer(Optional.empty(), TwoPoint.IDENTITY, -1e10, 1e10);

    private Taps() {}

    /** An input register of unit 1 that holds psi as uint16. */
    static Tap input(Channel channel, int address) {
        return register(channel, 1, Table.INPUT_REGISTER, address, NumberType.UINT16);
    }

    static Tap register(Channel channel, int unit, Table table, int address, NumberType type) {
        return tap(channel, new Register(unit, table, address, type, WordOrder.ABCD), PSI);
    }

    static Tap contact(Channel channel, Table table, int address) {
        Register bit = new Register(1, table, address, NumberType.UINT16, WordOrder.ABCD);
        return tap(channel, bit, new Contact(false));
    }

    static Tap tap(Channel channel, Register register, Conversion conversion) {
        return new Tap("jet-1", new ChannelSettings(channel, "plc", register, conversion));
    }

    static ModbusTcp connection(int port, Duration poll, Duration timeout) {
        return new ModbusTcp("plc", "127.0.0.1", port, poll, timeout, Duration.ofMillis(500));
    }
}
