package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.ArrayList;
import java.util.List;
import javax.net.SocketFactory;
import javax.net.ssl.SSLSocketFactory;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The sockets of one talk with a mail server, so that it can be broken off from outside: the
 * library itself heeds no interrupt, and bounds each step but not the whole. Thread-safe.
 */
final class MailSockets {

    private static final Logger LOG = LoggerFactory.getLogger(MailSockets.class);

    private final List<Socket> made = new ArrayList<>();
    private boolean brokenOff;

    /** Closes whatever was made, and what will be. */
    synchronized void breakOff() {
        brokenOff = true;
        made.forEach(MailSockets::close);
    }

    private synchronized <S extends Socket> S keep(S socket) throws IOException {
        made.add(socket);
        if (brokenOff) {
            close(socket);
            throw new IOException("broken off");
        }
        return socket;
    }

    private static void close(Socket socket) {
        try {
            socket.close();
        } catch (IOException e) {
            LOG.debug("closing {}", socket, e);
        }
    }

    SocketFactory plain() {
        return new Plain();
    }

    SSLSocketFactory tls(SSLSocketFactory real) {
        return new Tls(requireNonNull(real, "real"));
    }

    private final class Plain extends SocketFactory {
        @Override
        public Socket createSocket() throws IOException {
            return keep(new Socket());
        }

        @Override
        public Socket createSocket(String host, int port) throws IOException {
            throw new IOException("only unconnected sockets are made");
        }

        @Override
        public Socket createSocket(String host, int port, InetAddress local, int localPort)
                throws IOException {
            return createSocket(host, port);
        }

        @Override
        public Socket createSocket(InetAddress host, int port) throws IOException {
            return createSocket(host.getHostAddress(), port);
        }

        @Override
        public Socket createSocket(InetAddress host, int port, InetAddress local, int localPort)
                throws IOException {
            return createSocket(host, port);
        }
    }

    private final class Tls extends SSLSocketFactory {
        private final SSLSocketFactory real;

        Tls(SSLSocketFactory real) {
            this.real = real;
        }

        @Override
        public Socket createSocket() throws IOException {
            return keep(real.createSocket());
        }

        @Override
        public Socket createSocket(Socket below, String host, int port, boolean close)
                throws IOException {
            return keep(real.createSocket(below, host, port, close));
        }

        @Override
        public Socket createSocket(String host, int port) throws IOException {
            throw new IOException("only unconnected sockets are made");
        }

        @Override
        public Socket createSocket(String host, int port, InetAddress local, int localPort)
                throws IOException {
            return createSocket(host, port);
        }

        @Override
        public Socket createSocket(InetAddress host, int port) throws IOException {
            return createSocket(host.getHostAddress(), port);
        }

        @Override
        public Socket createSocket(InetAddress host, int port, InetAddress local, int localPort)
                throws IOException {
            return createSocket(host, port);
        }

        @Override
        public String[] getDefaultCipherSuites() {
            return real.getDefaultCipherSuites();
        }

        @Override
        public String[] getSupportedCipherSuites() {
            return real.getSupportedCipherSuites();
        }
    }
}
