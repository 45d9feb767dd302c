package leat.acquire.modbus;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalIn;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleInputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;

/**
 * The Modbus library's own slave, unit 1, with 16 of each: register n holds n (input registers) or
 * 100 + n (holding registers); even bits are on.
 */
final class LibrarySlave implements AutoCloseable {

    private static final int SIZE = 16;

    private final ModbusSlave slave;

    LibrarySlave(int port) throws ModbusException {
        slave = ModbusSlaveFactory.createTCPSlave(InetAddress.getLoopbackAddress(), port, 4, false);
        SimpleProcessImage image = new SimpleProcessImage(1);
        for (int i = 0; i < SIZE; i++) {
            image.addInputRegister(new SimpleInputRegister(i));
            image.addRegister(new SimpleRegister(100 + i));
            image.addDigitalIn(new SimpleDigitalIn(i % 2 == 0));
            image.addDigitalOut(new SimpleDigitalOut(i % 2 == 0));
        }
        slave.addProcessImage(1, image);
        slave.open();
    }

    int port() {
        return slave.getPort();
    }

    /** A port that was free a moment ago. */
    static int freePort() throws IOException {
        try (ServerSocket probe = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return probe.getLocalPort();
        }
    }

    @Override
    public void close() {
        ModbusSlaveFactory.close(slave);
    }
}
