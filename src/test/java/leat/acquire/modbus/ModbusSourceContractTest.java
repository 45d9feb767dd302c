package leat.acquire.modbus;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import leat.acquire.Intake;
import leat.acquire.LoopCurrents;
import leat.acquire.Source;
import leat.acquire.SourceContract;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.signal.Channel;

/** The contract over Modbus TCP, with a device on a socket of its own. */
class ModbusSourceContractTest extends SourceContract {

    private static final Duration POLL = Duration.ofMillis(20);
    private static final Duration TIMEOUT = Duration.ofMillis(400);
    private static final int INLET_AT = 3;
    private static final int BOOSTED_AT = 5;

    private FakeDevice device;

    @Override
    protected int startDevice(LoopCurrents loops) throws IOException {
        device =
                new FakeDevice(
                        (number, request, out) ->
                                out.write(FakeDevice.reply(request, at -> current(loops, at))));
        return device.port();
    }

    private static int current(LoopCurrents loops, int address) {
        return address == INLET_AT ? loops.inlet() : address == BOOSTED_AT ? loops.boosted() : 0;
    }

    @Override
    protected Source open(int port, Intake into) {
        List<Tap> taps = List.of(tap(Channel.INLET, INLET_AT), tap(Channel.BOOSTED, BOOSTED_AT));
        return new ModbusSource(
                Taps.connection(port, POLL, TIMEOUT), taps, into, new PollingThread());
    }

    private static Tap tap(Channel channel, int address) {
        Register register =
                new Register(1, Table.INPUT_REGISTER, address, NumberType.UINT16, WordOrder.ABCD);
        return Taps.tap(channel, register, LOOP);
    }

    @Override
    protected void startTheRest() {
        // it connects by itself
    }

    @Override
    protected String threadName() {
        return "leat-modbus";
    }

    @Override
    protected void closeTheRest() throws IOException {
        device.close();
    }
}
