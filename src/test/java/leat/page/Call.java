package leat.page;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.net.SocketFactory;

/**
 * One request as bytes on a socket, and what came back: no library that knows better stands
 * between.
 *
 * @param status of HTTP
 * @param headers lines, their names in lower case
 * @param body what came after the head
 */
public record Call(int status, List<String> headers, String body) {

    private static final int PATIENCE_MILLIS = 15_000;

    /** Where calls go. */
    public record To(int port, SocketFactory sockets) {

        public static To plain(int port) {
            return new To(port, SocketFactory.getDefault());
        }

        public Call get(String path, String... headers) throws IOException {
            return ask("GET", path, "", headers);
        }

        Call post(String path, String body, String... headers) throws IOException {
            return ask("POST", path, body, headers);
        }

        /** With a Host header, unless one is given. */
        Call ask(String method, String path, String body, String... headers) throws IOException {
            List<String> lines = new ArrayList<>(Arrays.asList(headers));
            if (lines.stream().noneMatch(line -> line.startsWith("Host"))) {
                lines.add("Host: 127.0.0.1:" + port);
            }
            if (!body.isEmpty()) {
                lines.add("Content-Length: " + body.getBytes(UTF_8).length);
            }
            return raw(
                    method
                            + " "
                            + path
                            + " HTTP/1.1\r\n"
                            + String.join("\r\n", lines)
                            + "\r\n\r\n"
                            + body);
        }

        Call raw(String request) throws IOException {
            try (Socket socket = open()) {
                socket.getOutputStream().write(request.getBytes(UTF_8));
                return read(new String(socket.getInputStream().readAllBytes(), UTF_8));
            }
        }

        Socket open() throws IOException {
            Socket socket = sockets.createSocket(InetAddress.getLoopbackAddress(), port);
            socket.setSoTimeout(PATIENCE_MILLIS);
            return socket;
        }
    }

    private static Call read(String answer) {
        int end = answer.indexOf("\r\n\r\n");
        if (end < 0) {
            return new Call(0, List.of(), answer);
        }
        List<String> head = answer.substring(0, end).lines().toList();
        List<String> headers =
                head.stream()
                        .skip(1)
                        .map(
                                line -> {
                                    int colon = line.indexOf(':');
                                    return line.substring(0, colon).toLowerCase(Locale.ROOT)
                                            + line.substring(colon);
                                })
                        .toList();
        return new Call(
                Integer.parseInt(head.get(0).split(" ")[1]), headers, answer.substring(end + 4));
    }

    Optional<String> header(String name) {
        return headers.stream()
                .filter(line -> line.startsWith(name + ": "))
                .map(line -> line.substring(name.length() + 2))
                .findFirst();
    }
}
