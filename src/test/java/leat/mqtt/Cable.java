package leat.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import leat.interop.FreePort;

/**
 * A cable between a client and a broker that a test can cut, unplug, make slow, or leave plugged in
 * but dead in one direction or both.
 */
public final class Cable implements AutoCloseable {

    private final int port;
    private final int brokerPort;
    private final List<Socket> sockets = new CopyOnWriteArrayList<>();
    private volatile ServerSocket server;
    private volatile boolean dead;
    private volatile boolean mute;
    private volatile long delayMillis;

    public Cable(int brokerPort) throws IOException {
        this.brokerPort = brokerPort;
        this.port = FreePort.find();
        plugIn();
    }

    public String url() {
        return "tcp://127.0.0.1:" + port;
    }

    public int port() {
        return port;
    }

    /** Nobody listens any more, and every connection is cut. */
    public void unplug() throws IOException {
        server.close();
        cut();
    }

    /** After {@link #unplug}, on the same port. */
    public void plugIn() throws IOException {
        ServerSocket again = new ServerSocket();
        again.setReuseAddress(true);
        again.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 50);
        server = again;
        listen();
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

    /** From now on what the broker says does not arrive; it hears everything. */
    public void setMute(boolean isMute) {
        mute = isMute;
    }

    /** From now on whatever the broker says is late by so much. */
    public void setDelay(Duration delay) {
        delayMillis = delay.toMillis();
    }

    private void listen() {
        ServerSocket at = server;
        daemon(() -> accept(at));
    }

    private void accept(ServerSocket at) {
        try {
            while (true) {
                connect(at.accept());
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
            daemon(() -> carry(client, broker, false));
            daemon(() -> carry(broker, client, true));
        } catch (IOException e) {
            closeQuietly(client);
        }
    }

    private void carry(Socket from, Socket to, boolean isAnswer) {
        try {
            InputStream in = from.getInputStream();
            OutputStream out = to.getOutputStream();
            byte[] some = new byte[8192];
            for (int n = in.read(some); n >= 0; n = in.read(some)) {
                if (isAnswer) {
                    delay();
                }
                if (!dead && !(isAnswer && mute)) {
                    out.write(some, 0, n);
                }
            }
        } catch (IOException e) {
            // one end is gone, so the other goes too
        }
        closeQuietly(from);
        if (!dead) {
            closeQuietly(to);
        }
    }

    private void delay() throws IOException {
        try {
            Thread.sleep(delayMillis);
        } catch (InterruptedException e) {
            throw new IOException(e);
        }
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
