package leat.bench.panel;

import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.ModbusIOException;
import com.ghgande.j2mod.modbus.io.AbstractModbusTransport;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.net.AbstractModbusListener;
import com.ghgande.j2mod.modbus.net.TCPSlaveConnection;
import com.ghgande.j2mod.modbus.procimg.ProcessImage;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A Modbus TCP server: the messages are j2mod's, the sockets are our own. j2mod's ready-made slave
 * does not tell which port it was given when it is asked for any, and leaves the connections of its
 * clients, and their threads, behind when it is closed.
 *
 * <p>A client that says nothing for the idle limit is let go, and so is one more than the limit of
 * clients. Thread-safe.
 */
final class ModbusServer extends AbstractModbusListener implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(ModbusServer.class);
    private static final int BACKLOG = 16;
    private static final int IDLE_MILLIS = 30_000;
    private static final int JOIN_MILLIS = 1_000;

    /** Answer of a gateway with no such device behind it; Modbus specification, section 7. */
    private static final int TARGET_FAILED_TO_RESPOND = 0x0B;

    private final ServerSocket server;
    private final Map<Integer, UnitImage> units;
    private final Semaphore places;
    private final Set<Socket> clients = ConcurrentHashMap.newKeySet();
    private final Thread accepting;

    /** Confined to the accepting thread. */
    private boolean saidFull;

    /**
     * Listens at once.
     *
     * @param port 0 for any free one
     * @param units the image of each unit id
     * @param mostClients clients served at the same time
     */
    ModbusServer(InetAddress address, int port, Map<Integer, UnitImage> units, int mostClients)
            throws IOException {
        this.units = Map.copyOf(units);
        places = new Semaphore(mostClients);
        server = new ServerSocket(port, BACKLOG, address);
        accepting = new Thread(this, "bench-modbus-" + server.getLocalPort());
        accepting.setDaemon(true);
        listening = true;
        accepting.start();
    }

    @Override
    public int getPort() {
        return server.getLocalPort();
    }

    @Override
    public void run() {
        while (!server.isClosed()) {
            try {
                admit(server.accept());
            } catch (IOException e) {
                if (!server.isClosed()) {
                    LOG.warn("bench: Modbus port {} takes no clients: {}", getPort(), e.toString());
                    close(server);
                }
            }
        }
    }

    private void admit(Socket client) {
        if (!places.tryAcquire()) {
            sayFull();
            close(client);
            return;
        }
        clients.add(client);
        if (server.isClosed()) {
            close(client);
        }
        Thread serving = new Thread(() -> serve(client), accepting.getName() + "-client");
        serving.setDaemon(true);
        serving.start();
    }

    private void sayFull() {
        if (!saidFull) {
            saidFull = true;
            LOG.warn("bench: Modbus port {} turns clients away, its places are taken", getPort());
        }
    }

    private void serve(Socket client) {
        try {
            client.setTcpNoDelay(true);
            TCPSlaveConnection connection = new TCPSlaveConnection(client);
            connection.setTimeout(IDLE_MILLIS);
            while (!server.isClosed()) {
                answer(connection.getModbusTransport());
            }
        } catch (ModbusIOException | IOException | RuntimeException e) {
            // The client left, fell silent, or sent what is not Modbus: the same for a device.
            LOG.debug("bench: Modbus port {} lets a client go: {}", getPort(), e.toString());
        } finally {
            close(client);
            clients.remove(client);
            places.release();
        }
    }

    private void answer(AbstractModbusTransport transport) throws ModbusIOException {
        ModbusRequest request = transport.readRequest(this);
        transport.writeResponse(response(request));
    }

    private ModbusResponse response(ModbusRequest request) {
        if (!units.containsKey(request.getUnitID())) {
            return request.createExceptionResponse(TARGET_FAILED_TO_RESPOND);
        }
        return switch (request.getFunctionCode()) {
            case Modbus.READ_COILS,
                    Modbus.READ_INPUT_DISCRETES,
                    Modbus.READ_HOLDING_REGISTERS,
                    Modbus.READ_INPUT_REGISTERS ->
                    request.createResponse(this);
            default -> request.createExceptionResponse(Modbus.ILLEGAL_FUNCTION_EXCEPTION);
        };
    }

    @Override
    public ProcessImage getProcessImage(int unitId) {
        return units.get(unitId);
    }

    @Override
    public void stop() {
        close();
    }

    @Override
    public void close() {
        listening = false;
        close(server);
        clients.forEach(ModbusServer::close);
        try {
            accepting.join(JOIN_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void close(AutoCloseable socket) {
        try {
            socket.close();
        } catch (Exception e) {
            LOG.debug("bench: a socket did not close: {}", e.toString());
        }
    }
}
