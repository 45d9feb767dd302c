package leat.deliver;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** A mail server that says what a test wants it to say, or nothing. Without TLS. */
final class ScriptedSmtp implements AutoCloseable {

    /** Instead of an answer: none, ever. */
    static final String SILENCE = "";

    private final ServerSocket listening;
    private final Map<String, String> answers = new ConcurrentHashMap<>();
    private final List<String> taken = new ArrayList<>();
    private final List<String> heard = new ArrayList<>();
    private final List<Socket> open = new ArrayList<>();

    ScriptedSmtp() throws IOException {
        listening = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        start(this::accept);
    }

    int port() {
        return listening.getLocalPort();
    }

    /**
     * @param order start of a line of the client's; the greeting is {@code connect}, the end of the
     *     content a full stop
     */
    void answer(String order, String reply) {
        answers.put(order, reply);
    }

    void answerAsUsual() {
        answers.clear();
    }

    /** Receivers and content of each message that was taken. */
    synchronized List<String> taken() {
        return List.copyOf(taken);
    }

    synchronized List<String> heard() {
        return List.copyOf(heard);
    }

    private void accept() {
        while (!listening.isClosed()) {
            try {
                Socket client = listening.accept();
                synchronized (this) {
                    open.add(client);
                }
                start(() -> talk(client));
            } catch (IOException e) {
                return; // closed
            }
        }
    }

    private static void start(Runnable work) {
        Thread thread = new Thread(work, "scripted-smtp");
        thread.setDaemon(true);
        thread.start();
    }

    private void talk(Socket client) {
        try (client) {
            BufferedReader in =
                    new BufferedReader(new InputStreamReader(client.getInputStream(), ISO_8859_1));
            OutputStream out = client.getOutputStream();
            List<String> receivers = new ArrayList<>();
            say(out, reply("connect"));
            for (String line = in.readLine(); line != null; line = in.readLine()) {
                note(line);
                if (line.startsWith("RCPT TO:") && reply(line).startsWith("250")) {
                    receivers.add(line.substring("RCPT TO:".length()));
                }
                say(out, reply(line));
                if (line.equals("DATA") && reply(line).startsWith("354")) {
                    String content = content(in);
                    String end = reply(".");
                    if (end.startsWith("250")) {
                        take(receivers + "\n" + content);
                    }
                    say(out, end);
                }
            }
        } catch (IOException e) {
            note("(broken off)");
        }
    }

    private static String content(BufferedReader in) throws IOException {
        StringBuilder content = new StringBuilder();
        for (String line = in.readLine(); line != null && !line.equals("."); line = in.readLine()) {
            content.append(line).append('\n');
        }
        return content.toString();
    }

    private static void say(OutputStream out, String reply) throws IOException {
        if (!reply.equals(SILENCE)) {
            out.write((reply + "\r\n").getBytes(ISO_8859_1));
            out.flush();
        }
    }

    private synchronized void take(String message) {
        taken.add(message);
    }

    private synchronized void note(String line) {
        heard.add(line);
    }

    private String reply(String order) {
        for (Map.Entry<String, String> answer : answers.entrySet()) {
            if (order.startsWith(answer.getKey())) {
                return answer.getValue();
            }
        }
        Map<String, String> usual = new LinkedHashMap<>();
        usual.put("connect", "220 boatyard.example.org");
        usual.put("EHLO", "250-boatyard.example.org\r\n250 8BITMIME");
        usual.put("DATA", "354 go on");
        usual.put("QUIT", "221 bye");
        return usual.entrySet().stream()
                .filter(e -> order.startsWith(e.getKey()))
                .map(Map.Entry::getValue)
                .findFirst()
                .orElse("250 fine");
    }

    @Override
    public void close() throws IOException {
        listening.close();
        synchronized (this) {
            for (Socket client : open) {
                client.close();
            }
        }
    }
}
