package leat.system;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import leat.interop.FreePort;

/**
 * The Modbus device of {@link QuickSite}: pressures as float32 in input registers 10 and 12, the
 * contact as discrete input 0. It can go away and come back at its port, and it can answer before
 * it is asked, with a lie. Thread-safe.
 */
final class OwnWilledDevice implements AutoCloseable {

    private static final int READ_DISCRETE_INPUTS = 2;
    private static final int REQUEST = 12;
    private static final int FLOAT_ADDRESS = 10;

    private record Shown(double inletPsi, double boostedPsi, boolean running) {}

    private final int port = FreePort.find();
    private final Set<Socket> clients = ConcurrentHashMap.newKeySet();
    private volatile ServerSocket server;
    private volatile Shown shown = new Shown(40, 102, true);
    private volatile boolean lying;

    OwnWilledDevice() throws IOException {
        server = listen();
    }

    private ServerSocket listen() throws IOException {
        ServerSocket socket = new ServerSocket();
        socket.setReuseAddress(true);
        socket.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
        daemon(() -> accept(socket));
        return socket;
    }

    int port() {
        return port;
    }

    /** Shows pressures of a running booster. */
    void show(double inletPsi, double boostedPsi) {
        shown = new Shown(inletPsi, boostedPsi, true);
    }

    /** Shows a booster that stands still. */
    void rest(double inletPsi) {
        shown = new Shown(inletPsi, 0, false);
    }

    /**
     * From now on, or no longer: after each answer about the contact it also sends what would be
     * the answer to the next question, with another boosted pressure than it reads.
     */
    void answerBeforeItIsAsked(boolean newLying) {
        lying = newLying;
    }

    /** As when its cable is pulled out, but that whoever talks to it hears of it at once. */
    void goAway() throws IOException {
        server.close();
        closeClients();
    }

    void comeBack() throws IOException {
        server = listen();
    }

    private void accept(ServerSocket socket) {
        try {
            while (true) {
                Socket client = socket.accept();
                clients.add(client);
                daemon(() -> serve(client));
            }
        } catch (IOException e) {
            closeClients();
        }
    }

    private void serve(Socket client) {
        try (client) {
            DataInputStream in = new DataInputStream(client.getInputStream());
            OutputStream out = client.getOutputStream();
            while (true) {
                byte[] request = new byte[REQUEST];
                in.readFully(request);
                out.write(answer(request));
                out.flush();
            }
        } catch (IOException e) {
            clients.remove(client);
        }
    }

    private byte[] answer(byte[] request) {
        Shown now = shown;
        ByteBuffer asked = ByteBuffer.wrap(request);
        short transaction = asked.getShort(0);
        int address = asked.getShort(8);
        int count = asked.getShort(10);
        if (request[7] == READ_DISCRETE_INPUTS) {
            byte[] contact = {(byte) (now.running() ? 1 : 0)};
            byte[] honest = frame(transaction, request[6], request[7], contact);
            return lying ? withLie(honest, (short) (transaction + 1), request[6], now) : honest;
        }
        return frame(transaction, request[6], request[7], registers(now, address, count));
    }

    private static byte[] withLie(byte[] honest, short next, byte unit, Shown now) {
        double other = now.boostedPsi() > 80 ? 56 : 102;
        Shown lie = new Shown(now.inletPsi(), other, now.running());
        byte[] unasked = frame(next, unit, (byte) 4, registers(lie, FLOAT_ADDRESS, 4));
        return ByteBuffer.allocate(honest.length + unasked.length).put(honest).put(unasked).array();
    }

    private static byte[] registers(Shown now, int address, int count) {
        ByteBuffer all = ByteBuffer.allocate(8);
        all.putFloat((float) now.inletPsi()).putFloat((float) now.boostedPsi());
        byte[] asked = new byte[2 * count];
        all.position(2 * (address - FLOAT_ADDRESS)).get(asked);
        return asked;
    }

    private static byte[] frame(short transaction, byte unit, byte function, byte[] data) {
        return ByteBuffer.allocate(9 + data.length)
                .putShort(transaction)
                .putShort((short) 0)
                .putShort((short) (3 + data.length))
                .put(unit)
                .put(function)
                .put((byte) data.length)
                .put(data)
                .array();
    }

    private void closeClients() {
        for (Socket client : clients) {
            clients.remove(client);
            try {
                client.close();
            } catch (IOException e) {
                // it is gone either way
            }
        }
    }

    private static void daemon(Runnable work) {
        Thread thread = new Thread(work, "own-willed-device");
        thread.setDaemon(true);
        thread.start();
    }

    @Override
    public void close() throws IOException {
        goAway();
    }
}
