package leat.page;

import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import leat.interop.Peer;

/**
 * A browser without a window, told what to do by its DevTools protocol. Confined to the test's
 * thread.
 */
final class Chromium implements AutoCloseable {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Duration PATIENCE = Duration.ofSeconds(30);
    private static final Set<String> COMPLAINTS =
            Set.of("Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded");

    private final Process process;
    private final WebSocket socket;
    private final BlockingQueue<JsonNode> answers = new LinkedBlockingQueue<>();
    private final List<String> complaints = Collections.synchronizedList(new ArrayList<>());
    private int commands;

    private Chromium(Process process, HttpClient client, URI page) {
        this.process = process;
        socket = client.newWebSocketBuilder().buildAsync(page, new Ear()).join();
    }

    /**
     * Finds the browser, or skips the test.
     *
     * @param folder for its profile; empty
     */
    static Chromium start(Path folder) throws IOException, InterruptedException {
        Process process =
                new ProcessBuilder(
                                Peer.require("chromium").toString(),
                                "--headless=new",
                                "--no-sandbox",
                                "--disable-gpu",
                                "--disable-dev-shm-usage",
                                "--remote-debugging-port=0",
                                "--user-data-dir=" + folder,
                                "about:blank")
                        .redirectErrorStream(true)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .start();
        Path told = folder.resolve("DevToolsActivePort");
        await().atMost(PATIENCE)
                .ignoreExceptions()
                .until(() -> Files.readAllLines(told).size() > 1);
        HttpClient client = HttpClient.newHttpClient();
        URI list = URI.create("http://127.0.0.1:" + Files.readAllLines(told).get(0) + "/json/list");
        String tabs =
                client.send(
                                HttpRequest.newBuilder(list).build(),
                                HttpResponse.BodyHandlers.ofString())
                        .body();
        for (JsonNode tab : JSON.readTree(tabs)) {
            if (tab.path("type").textValue().equals("page")) {
                URI page = URI.create(tab.path("webSocketDebuggerUrl").textValue());
                Chromium browser = new Chromium(process, client, page);
                browser.tell("Page.enable", Map.of());
                browser.tell("Runtime.enable", Map.of());
                browser.tell("Log.enable", Map.of());
                return browser;
            }
        }
        process.destroy();
        throw new IOException("the browser has no page: " + tabs);
    }

    private final class Ear implements WebSocket.Listener {
        private final StringBuilder text = new StringBuilder();

        @Override
        public CompletionStage<?> onText(WebSocket from, CharSequence part, boolean last) {
            text.append(part);
            if (last) {
                hear(text.toString());
                text.setLength(0);
            }
            from.request(1);
            return null;
        }
    }

    private void hear(String text) {
        try {
            JsonNode message = JSON.readTree(text);
            if (message.has("id")) {
                answers.add(message);
            } else if (COMPLAINTS.contains(message.path("method").asText())) {
                complaints.add(text);
            }
        } catch (IOException e) {
            complaints.add("not understood: " + text);
        }
    }

    private JsonNode tell(String method, Map<String, Object> parameters)
            throws InterruptedException, IOException {
        ObjectNode command = JSON.createObjectNode();
        command.put("id", ++commands).put("method", method);
        command.set("params", JSON.valueToTree(parameters));
        socket.sendText(command.toString(), true).join();
        JsonNode answer = answers.poll(PATIENCE.toSeconds(), TimeUnit.SECONDS);
        if (answer == null || answer.path("id").intValue() != commands || answer.has("error")) {
            throw new IOException(method + ": " + answer);
        }
        return answer.path("result");
    }

    /** Opens a page, in a window of this width, in light or dark. */
    void open(String url, int width, String scheme) throws Exception {
        tell(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
        tell(
                "Emulation.setEmulatedMedia",
                Map.of(
                        "features",
                        List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
        tell("Page.navigate", Map.of("url", "about:blank"));
        complaints.clear();
        tell("Page.navigate", Map.of("url", url));
        await().atMost(PATIENCE)
                .until(
                        () ->
                                run("document.readyState == 'complete' &&"
                                                + " location.href == '"
                                                + url
                                                + "'")
                                        .booleanValue());
    }

    /** The value of an expression of JavaScript in the page; waits where it promises one. */
    JsonNode run(String script) throws IOException, InterruptedException {
        JsonNode answer =
                tell(
                        "Runtime.evaluate",
                        Map.of("expression", script, "awaitPromise", true, "returnByValue", true));
        if (answer.has("exceptionDetails")) {
            throw new IOException(answer.toString());
        }
        return answer.path("result").path("value");
    }

    /** What the console has shown of the page. */
    List<String> complaints() {
        return List.copyOf(complaints);
    }

    @Override
    public void close() {
        socket.abort();
        process.destroy();
        try {
            process.waitFor(10, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        process.destroyForcibly();
    }
}
