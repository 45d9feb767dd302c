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

/**
 * Forwards bytes between a client and a device, and notes the function code of every frame that the
 * client sends (MBAP header: MODBUS Messaging on TCP/IP Implementation Guide V1.0b, 3.1.3).
 */
final class RecordingProxy implements AutoCloseable {

    private final ServerSocket server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    private final int devicePort;
    private final Set<Socket> sockets = ConcurrentHashMap.newKeySet();
    private final AtomicInteger connections = new AtomicInteger();
    private final List<Integer> functions = new CopyOnWriteArrayList<>();

    RecordingProxy(int devicePort) throws IOException {
        this.devicePort = devicePort;
        daemon(this::accept).start();
    }

    int port() {
        return server.getLocalPort();
    }

    /** Function codes in the order in which they were sent, over all connections. */
    List<Integer> functions() {
        return List.copyOf(functions);
    }

    /** Connections that were made. */
    int connections() {
        return connections.get();
    }

    /** Cuts the connections that there are; new ones are served. */
    void cut() {
        for (Socket socket : sockets) {
            close(socket);
        }
    }

    private void accept() {
        try {
            while (true) {
                Socket client = server.accept();
                Socket device = new Socket(InetAddress.getLoopbackAddress(), devicePort);
                connections.incrementAndGet();
                sockets.add(client);
                sockets.add(device);
                daemon(() -> towardsDevice(client, device)).start();
                daemon(() -> towardsClient(device, client)).start();
            }
        } catch (IOException e) {
            cut();
        }
    }

    private void towardsDevice(Socket client, Socket device) {
        try {
            DataInputStream in = new DataInputStream(client.getInputStream());
            OutputStream out = device.getOutputStream();
            while (true) {
                byte[] header = in.readNBytes(6);
                byte[] body = in.readNBytes((header[4] & 0xff) << 8 | header[5] & 0xff);
                functions.add(body[1] & 0xff);
                out.write(header);
                out.write(body);
            }
        } catch (IOException | ArrayIndexOutOfBoundsException e) {
            close(client);
            close(device);
        }
    }

    private void towardsClient(Socket device, Socket client) {
        try {
            device.getInputStream().transferTo(client.getOutputStream());
        } catch (IOException e) {
            close(device);
        }
        close(client);
    }

    private void close(Socket socket) {
        sockets.remove(socket);
        try {
            socket.close();
        } catch (IOException e) {
            sockets.remove(socket);
        }
    }

    private static Thread daemon(Runnable work) {
        Thread thread = new Thread(work, "recording-proxy");
        thread.setDaemon(true);
        return thread;
    }

    @Override
    public void close() throws IOException {
        server.close();
        cut();
    }
}
