package leat.service;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The other side of a route, in a condition that a test chooses: a mail server or a receiver of
 * webhooks, by hand over a socket, so that it can be killed, hang, dawdle, refuse or be full at any
 * moment.
 */
final class TroubledPeer implements AutoCloseable {

    /** Its language. */
    enum Kind {
        MAIL,
        WEBHOOK
    }

    /** How it is. */
    enum Condition {
        WELL,
        /** Nobody listens, and whoever was connected is cut off. */
        KILLED,
        /** Accepts and never answers. */
        HUNG,
        /** Half a second before each answer. */
        SLOW,
        /** Not now: mail 451, webhook 503. */
        REFUSING,
        /** No room: mail 452, webhook 507. */
        FULL
    }

    private static final Pattern ID = Pattern.compile("jet-1\\.ratio\\.20260105T060101Z/\\d+");
    private static final long SLOW_MILLIS = 500;

    private final Kind kind;
    private final int port;
    private final Predicate<String> isCommitted;
    private final List<String> taken = new CopyOnWriteArrayList<>();
    private final List<String> early = new CopyOnWriteArrayList<>();
    private final List<Socket> open = new CopyOnWriteArrayList<>();
    private volatile ServerSocket listening;
    private volatile Condition condition = Condition.WELL;

    TroubledPeer(Kind kind, Predicate<String> isCommitted) throws IOException {
        this.kind = kind;
        this.isCommitted = isCommitted;
        this.listening = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        this.port = listening.getLocalPort();
        listen();
    }

    int port() {
        return port;
    }

    /** Ids of what it has taken, repeats included. */
    List<String> taken() {
        return List.copyOf(taken);
    }

    /** Ids of what came before it was committed. */
    List<String> early() {
        return List.copyOf(early);
    }

    void become(Condition next) throws IOException {
        Condition before = condition;
        condition = next;
        if (next == Condition.KILLED) {
            listening.close();
        } else if (before == Condition.KILLED) {
            ServerSocket again = new ServerSocket();
            again.setReuseAddress(true);
            again.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 50);
            listening = again;
            listen();
        }
        if (next == Condition.KILLED || before == Condition.HUNG) {
            for (Socket client : open) {
                client.close();
            }
        }
    }

    private void listen() {
        ServerSocket at = listening;
        start(
                () -> {
                    while (!at.isClosed()) {
                        try {
                            Socket client = at.accept();
                            open.add(client);
                            start(() -> serve(client));
                        } catch (IOException e) {
                            return; // killed
                        }
                    }
                });
    }

    private static void start(Runnable work) {
        Thread thread = new Thread(work, "troubled-peer");
        thread.setDaemon(true);
        thread.start();
    }

    private void serve(Socket client) {
        try (client) {
            BufferedReader in =
                    new BufferedReader(new InputStreamReader(client.getInputStream(), ISO_8859_1));
            OutputStream out = client.getOutputStream();
            if (kind == Kind.MAIL) {
                mail(in, out);
            } else {
                webhook(in, out);
            }
        } catch (IOException e) {
            open.remove(client);
        }
    }

    private void mail(BufferedReader in, OutputStream out) throws IOException {
        say(out, "220 boatyard.example.org");
        for (String line = in.readLine(); line != null; line = in.readLine()) {
            if (line.equals("DATA")) {
                say(out, "354 go on");
                List<String> content = new ArrayList<>();
                for (String l = in.readLine(); l != null && !l.equals("."); l = in.readLine()) {
                    content.add(l);
                }
                say(out, end(String.join("\n", content), "250 taken", "451 not now", "452 full"));
            } else if (line.equals("QUIT")) {
                say(out, "221 bye");
                return;
            } else {
                say(out, "250 fine");
            }
        }
    }

    private void webhook(BufferedReader in, OutputStream out) throws IOException {
        int length = 0;
        for (String line = in.readLine(); line != null; line = in.readLine()) {
            if (line.toLowerCase().startsWith("content-length:")) {
                length = Integer.parseInt(line.replaceAll("\\D", ""));
            }
            if (line.isEmpty()) {
                char[] body = new char[length];
                for (int n = 0; n < length; n += Math.max(0, in.read(body, n, length - n))) {}
                say(
                        out,
                        end(
                                new String(body),
                                "HTTP/1.1 204 No Content\r\n",
                                "HTTP/1.1 503 No\r\nContent-Length: 0\r\n",
                                "HTTP/1.1 507 Full\r\nContent-Length: 0\r\n"));
            }
        }
    }

    private String end(String message, String well, String refusing, String full) {
        Matcher found = ID.matcher(message);
        String id = found.find() ? found.group() : "none in: " + message;
        if (!isCommitted.test(id)) {
            early.add(id);
        }
        return switch (condition) {
            case WELL, SLOW -> {
                taken.add(id);
                yield well;
            }
            case REFUSING -> refusing;
            case FULL -> full;
            case KILLED, HUNG -> "";
        };
    }

    private void say(OutputStream out, String words) throws IOException {
        if (condition == Condition.SLOW) {
            dawdle();
        }
        if (condition != Condition.HUNG && condition != Condition.KILLED) {
            out.write((words + "\r\n").getBytes(ISO_8859_1));
            out.flush();
        }
    }

    private static void dawdle() throws IOException {
        try {
            Thread.sleep(SLOW_MILLIS);
        } catch (InterruptedException e) {
            throw new IOException(e);
        }
    }

    @Override
    public void close() throws IOException {
        listening.close();
        for (Socket client : open) {
            client.close();
        }
    }
}
