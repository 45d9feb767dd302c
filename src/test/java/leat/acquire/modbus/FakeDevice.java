package leat.acquire.modbus;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.IntUnaryOperator;

/** A scripted device on a real socket of its own port; answers each request as it is told. */
final class FakeDevice implements AutoCloseable {

    /** Answers one request. */
    interface Script {
        /**
         * @param number how many requests came before, over all connections
         * @param request the whole frame
         * @param out towards the program under test
         */
        void answer(int number, byte[] request, OutputStream out) throws IOException;
    }

    private final ServerSocket server;
    private final Script script;
    private final Set<Socket> clients = ConcurrentHashMap.newKeySet();
    private final AtomicInteger connections = new AtomicInteger();
    private final AtomicInteger number = new AtomicInteger();
    private final List<byte[]> requests = new CopyOnWriteArrayList<>();

    private final byte[] greeting;

    FakeDevice(Script script) throws IOException {
        this(script, new byte[0]);
    }

    /**
     * @param greeting sent to each client before it asks for anything
     */
    FakeDevice(Script script, byte[] greeting) throws IOException {
        this.script = script;
        this.greeting = greeting;
        this.server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        daemon(this::accept, "fake-device").start();
    }

    int port() {
        return server.getLocalPort();
    }

    int connections() {
        return connections.get();
    }

    List<byte[]> requests() {
        return List.copyOf(requests);
    }

    /** A good reply that gives each register its own address as value, bits all 1. */
    static byte[] echoOfAddresses(byte[] request) {
        return reply(request, address -> address);
    }

    /** A good reply with the value of each register by its address, bits all 1. */
    static byte[] reply(byte[] request, IntUnaryOperator valueAt) {
        int address = word(request, 8);
        int count = word(request, 10);
        boolean bits = request[7] <= 2;
        int size = bits ? (count + 7) / 8 : 2 * count;
        byte[] reply = new byte[9 + size];
        System.arraycopy(request, 0, reply, 0, 8);
        reply[4] = (byte) (3 + size >>> 8);
        reply[5] = (byte) (3 + size);
        reply[8] = (byte) size;
        for (int i = 0; i < size; i++) {
            int value = valueAt.applyAsInt(address + i / 2);
            reply[9 + i] = (byte) (bits ? 0xff : i % 2 == 0 ? value >>> 8 : value);
        }
        return reply;
    }

    static byte[] exception(byte[] request, int code) {
        return new byte[] {
            request[0], request[1], 0, 0, 0, 3, request[6], (byte) (request[7] | 0x80), (byte) code
        };
    }

    static int word(byte[] frame, int at) {
        return (frame[at] & 0xff) << 8 | frame[at + 1] & 0xff;
    }

    private void accept() {
        try {
            while (true) {
                Socket client = server.accept();
                connections.incrementAndGet();
                clients.add(client);
                daemon(() -> serve(client), "fake-device-client").start();
            }
        } catch (IOException e) {
            closeAll();
        }
    }

    private void serve(Socket client) {
        try (client) {
            client.getOutputStream().write(greeting);
            DataInputStream in = new DataInputStream(client.getInputStream());
            while (true) {
                byte[] request = new byte[12];
                in.readFully(request);
                requests.add(request);
                script.answer(number.getAndIncrement(), request, client.getOutputStream());
            }
        } catch (IOException e) {
            clients.remove(client);
        }
    }

    private void closeAll() {
        for (Socket client : clients) {
            try {
                client.close();
            } catch (IOException e) {
                clients.remove(client);
            }
        }
    }

    private static Thread daemon(Runnable work, String name) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        return thread;
    }

    @Override
    public void close() throws IOException {
        server.close();
        closeAll();
    }
}
