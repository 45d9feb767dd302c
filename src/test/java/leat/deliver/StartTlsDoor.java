package leat.deliver;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.awaitility.Awaitility.await;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import leat.interop.FreePort;

/**
 * Stands before a mail server that speaks in clear, and does STARTTLS (RFC 3207) for it: hands over
 * line by line, lets nothing but a greeting pass without TLS and no mail without a login, and
 * answers in the server's place, late, or not at all where the test wants it so.
 */
public final class StartTlsDoor implements AutoCloseable {

    private static final String GREETING = "";
    private static final String END = ".";
    private static final String NOTHING = "";

    private final int inner;
    private final int port;
    private final Map<String, String> answers = new ConcurrentHashMap<>();
    private final List<Socket> open = new CopyOnWriteArrayList<>();
    private volatile ServerSocket listening;
    private volatile SSLContext shown;
    private volatile long delayMillis;
    private volatile boolean hangsUpOnceSecure;

    public StartTlsDoor(int inner, SSLContext shown) throws IOException {
        this.inner = inner;
        this.shown = shown;
        port = FreePort.find();
        reopen();
    }

    public int port() {
        return port;
    }

    /** From now on, in the server's place, which does not hear of it. */
    public void answer(String order, String reply) {
        answers.put(order, reply);
    }

    /**
     * From now on that order is not answered, and none that was already left without an answer;
     * what came before them is.
     *
     * @param order empty for the greeting; a full stop for the end of a mail, which the server
     *     takes
     */
    public void saysNothingFrom(String order) {
        answers.put(order, NOTHING);
    }

    /** From now on: takes part in the handshake and says no more. */
    void hangUpOnceSecure() {
        hangsUpOnceSecure = true;
    }

    /** Who still waits for an answer is hung up on. */
    public void answerAsUsual() throws IOException {
        answers.clear();
        hangUp();
    }

    public void delay(Duration delay) {
        delayMillis = delay.toMillis();
    }

    /** As after a restart with another certificate. */
    public void show(SSLContext other) throws IOException {
        shown = other;
        hangUp();
    }

    public void shut() throws IOException {
        listening.close();
        hangUp();
    }

    public void reopen() throws IOException {
        ServerSocket again = new ServerSocket();
        again.setReuseAddress(true);
        again.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 50);
        listening = again;
        listen();
    }

    /** What the server has heard by then it may still take; after this it takes nothing more. */
    private void hangUp() throws IOException {
        List<Socket> talks = List.copyOf(open);
        for (Socket client : talks) {
            client.close();
        }
        await().pollInterval(Duration.ofMillis(5)).until(() -> Collections.disjoint(open, talks));
    }

    private void listen() {
        ServerSocket at = listening;
        start(
                () -> {
                    while (!at.isClosed()) {
                        try {
                            Socket client = at.accept();
                            client.setTcpNoDelay(true);
                            open.add(client);
                            start(() -> serve(client));
                        } catch (IOException e) {
                            return; // shut
                        }
                    }
                });
    }

    private static void start(Runnable work) {
        Thread thread = new Thread(work, "door");
        thread.setDaemon(true);
        thread.start();
    }

    private void serve(Socket client) {
        try (client;
                Socket server = new Socket(InetAddress.getLoopbackAddress(), inner)) {
            server.setTcpNoDelay(true);
            new Talk(client, server).hold();
        } catch (IOException e) {
            // one of the two has hung up, or leat does not like the certificate
        } finally {
            open.remove(client);
        }
    }

    @Override
    public void close() throws IOException {
        shut();
    }

    /** One conversation. */
    private final class Talk {

        private final Socket client;
        private final BufferedReader fromServer;
        private final OutputStream toServer;
        private BufferedReader fromClient;
        private OutputStream toClient;
        private boolean secure;
        private boolean loggedIn;

        Talk(Socket client, Socket server) throws IOException {
            this.client = client;
            fromServer = reader(server);
            toServer = server.getOutputStream();
            fromClient = reader(client);
            toClient = client.getOutputStream();
        }

        private BufferedReader reader(Socket socket) throws IOException {
            return new BufferedReader(new InputStreamReader(socket.getInputStream(), ISO_8859_1));
        }

        void hold() throws IOException {
            say(GREETING, reply());
            for (String line = fromClient.readLine(); line != null; line = fromClient.readLine()) {
                follow(line);
            }
        }

        private void follow(String line) throws IOException {
            String order = line.toUpperCase().split("[ :]", 2)[0];
            if (order.equals("STARTTLS") && !secure) {
                say(order, List.of("220 go ahead"));
                secure();
            } else if (!secure && !List.of("EHLO", "HELO", "NOOP", "QUIT").contains(order)) {
                say(order, List.of("530 5.7.0 STARTTLS first"));
            } else if (order.equals("MAIL") && !loggedIn) {
                say(order, List.of("530 5.7.0 log in first"));
            } else if (answers.containsKey(order)) {
                say(order, List.of());
            } else if (order.equals("DATA")) {
                mail();
            } else {
                pass(order, line);
            }
        }

        private void pass(String order, String line) throws IOException {
            write(toServer, line);
            List<String> reply = reply();
            loggedIn |= reply.get(0).startsWith("235");
            say(order, order.equals("EHLO") && !secure ? offeringTls(reply) : reply);
        }

        /** Without TLS nobody is asked for a password. */
        private List<String> offeringTls(List<String> reply) {
            List<String> offers = new ArrayList<>();
            offers.add("250-boatyard.example.org");
            reply.stream()
                    .skip(1)
                    .filter(line -> !line.contains("AUTH"))
                    .forEach(line -> offers.add("250-" + line.substring(4)));
            offers.add("250 STARTTLS");
            return offers;
        }

        private void secure() throws IOException {
            SSLSocket tls =
                    (SSLSocket) shown.getSocketFactory().createSocket(client, null, port, true);
            tls.setUseClientMode(false);
            tls.startHandshake();
            fromClient = reader(tls);
            toClient = tls.getOutputStream();
            secure = true;
            if (hangsUpOnceSecure) {
                fromClient.readLine();
                throw new IOException("enough said");
            }
        }

        /** The server hears of a mail only when all of it is there. */
        private void mail() throws IOException {
            say("DATA", List.of("354 go on"));
            List<String> content = new ArrayList<>();
            for (String line = fromClient.readLine();
                    !END.equals(line);
                    line = fromClient.readLine()) {
                if (line == null) {
                    throw new IOException("hung up in mid-mail");
                }
                content.add(line);
            }
            write(toServer, "DATA");
            List<String> answer = reply();
            if (answer.get(0).startsWith("354")) {
                write(toServer, String.join("\r\n", content) + "\r\n" + END);
                answer = reply();
            }
            say(END, answer);
        }

        private List<String> reply() throws IOException {
            List<String> reply = new ArrayList<>();
            do {
                String line = fromServer.readLine();
                if (line == null) {
                    throw new IOException("the server has hung up");
                }
                reply.add(line);
            } while (reply.get(reply.size() - 1).startsWith("-", 3));
            return reply;
        }

        private void say(String order, List<String> usual) throws IOException {
            String instead = answers.get(order);
            if (NOTHING.equals(instead)) {
                return;
            }
            pause();
            write(toClient, instead == null ? String.join("\r\n", usual) : instead);
        }

        private void pause() throws IOException {
            try {
                Thread.sleep(delayMillis);
            } catch (InterruptedException e) {
                throw new IOException(e);
            }
        }

        private static void write(OutputStream to, String line) throws IOException {
            to.write((line + "\r\n").getBytes(ISO_8859_1));
            to.flush();
        }
    }
}
