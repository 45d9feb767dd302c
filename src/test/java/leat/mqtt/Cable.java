package leat.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

/** A cable between a client and a broker that a test can cut, or leave plugged in but dead. */
public final class Cable implements AutoCloseable {

    private final ServerSocket server;
    private final int brokerPort;
    private final List<Socket> sockets = new CopyOnWriteArrayList<>();
    private volatile boolean dead;

    public Cable(int brokerPort) throws IOException {
        this.brokerPort = brokerPort;
        this.server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        daemon(this::accept);
    }

    public String url() {
        return "tcp://127.0.0.1:" + server.getLocalPort();
    }

    /** Cuts every connection that goes through it now. */
    public void cut() {
        sockets.forEach(Cable::closeQuietly);
        sockets.clear();
    }

    /** From now on nothing that is sent arrives, yet every connection stays open. */
    public void setDead(boolean isDead) {
        dead = isDead;
    }

    private void accept() {
        try {
            while (true) {
                connect(server.accept());
            }
        } catch (IOException e) {
            cut();
        }
    }

    private void connect(Socket client) {
        sockets.add(client);
        try {
            Socket broker = new Socket(InetAddress.getLoopbackAddress(), brokerPort);
            sockets.add(broker);
            daemon(() -> carry(client, broker));
            daemon(() -> carry(broker, client));
        } catch (IOException e) {
            closeQuietly(client);
        }
    }

    private void carry(Socket from, Socket to) {
        try {
            InputStream in = from.getInputStream();
            OutputStream out = to.getOutputStream();
            byte[] some = new byte[8192];
            for (int n = in.read(some); n >= 0; n = in.read(some)) {
                if (!dead) {
                    out.write(some, 0, n);
                }
            }
        } catch (IOException e) {
            // one end is gone, so the other goes too
        }
        closeQuietly(from);
        closeQuietly(to);
    }

    private static void daemon(Runnable work) {
        Thread thread = new Thread(work, "cable");
        thread.setDaemon(true);
        thread.start();
    }

    private static void closeQuietly(Socket socket) {
        try {
            socket.close();
        } catch (IOException e) {
            throw new IllegalStateException("a socket that does not close", e);
        }
    }

    @Override
    public void close() throws IOException {
        server.close();
        cut();
    }
}
