package leat.deliver;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsServer;
import java.io.IOException;
import java.net.BindException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.function.BiConsumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import leat.tls.Certificates;
import org.awaitility.Awaitility;

/** The JDK's HTTP server as a receiver that takes only what is signed as messages.md says. */
public final class WebhookReceiver implements AutoCloseable {

    public static final String SECRET = "an invented secret of 32 letters";

    private static final Pattern INPUT =
            Pattern.compile(
                    "leat=(\\(\"@method\" \"@target-uri\" \"content-type\" \"content-digest\""
                            + " \"leat-message-id\"\\);created=([0-9]{1,12});keyid=\"[!-~]+\""
                            + ";alg=\"hmac-sha256\";tag=\"leat.webhook/1\")");

    private final HttpServer server;
    private final ExecutorService threads = Executors.newCachedThreadPool();
    private final List<String> bodies = new ArrayList<>();
    private final List<String> ids = new ArrayList<>();
    private final CountDownLatch end = new CountDownLatch(1);
    private volatile int status = 204;
    private volatile Map<String, String> headers = Map.of();
    private volatile boolean hung;
    private volatile long delayMillis;
    private volatile int requests;
    private volatile int unsigned;
    private volatile BiConsumer<String, String> taken = (id, body) -> {};

    private WebhookReceiver(HttpServer server) {
        this.server = server;
        server.createContext("/leat", this::take);
        server.setExecutor(threads);
        server.start();
    }

    /** On a port that another one may have been closed on just now. */
    public static WebhookReceiver https(Certificates.Server shown, int port) throws Exception {
        HttpsServer server =
                Awaitility.await()
                        .ignoreException(BindException.class)
                        .until(() -> HttpsServer.create(at(port), 0), Objects::nonNull);
        server.setHttpsConfigurator(new HttpsConfigurator(shown.context()));
        return new WebhookReceiver(server);
    }

    static WebhookReceiver http() throws IOException {
        return new WebhookReceiver(HttpServer.create(at(0), 0));
    }

    private static InetSocketAddress at(int port) {
        return new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
    }

    public int port() {
        return server.getAddress().getPort();
    }

    /** From now on; whatever is not 2xx is not taken. */
    public void answer(int newStatus, Map<String, String> newHeaders) {
        status = newStatus;
        headers = newHeaders;
    }

    /** Takes nothing in, and never answers. */
    void hang(boolean newHung) {
        hung = newHung;
    }

    /**
     * Shows each message that is taken, before it is answered, on the thread of the request.
     *
     * @param newTaken given the id and the body
     */
    public void onTaken(BiConsumer<String, String> newTaken) {
        taken = newTaken;
    }

    /** From now on each answer is late by so much; what is taken is taken before. */
    public void delay(Duration newDelay) {
        delayMillis = newDelay.toMillis();
    }

    /** Requests without a good signature. */
    public int unsigned() {
        return unsigned;
    }

    int requests() {
        return requests;
    }

    /** Bodies with a good signature, in order. */
    synchronized List<String> bodies() {
        return List.copyOf(bodies);
    }

    synchronized List<String> ids() {
        return List.copyOf(ids);
    }

    private void take(HttpExchange exchange) throws IOException {
        requests++;
        byte[] body = exchange.getRequestBody().readAllBytes();
        if (hung) {
            await(Long.MAX_VALUE);
        }
        int answer = isSigned(exchange, body) ? status : 401;
        if (answer == 401) {
            unsigned++;
        }
        if (answer / 100 == 2) {
            take(header(exchange, "Leat-Message-Id"), new String(body, UTF_8));
        }
        await(delayMillis);
        headers.forEach((name, value) -> exchange.getResponseHeaders().add(name, value));
        exchange.sendResponseHeaders(answer, -1);
        exchange.close();
    }

    private void take(String id, String body) {
        taken.accept(id, body);
        synchronized (this) {
            bodies.add(body);
            ids.add(id);
        }
    }

    /** Everything that src/docs/messages.md says of the signature. */
    private boolean isSigned(HttpExchange exchange, byte[] body) throws IOException {
        Matcher input = INPUT.matcher(header(exchange, "Signature-Input"));
        return input.matches()
                && Math.abs(System.currentTimeMillis() / 1000 - Long.parseLong(input.group(2)))
                        < 300
                && header(exchange, "Content-Digest").equals("sha-256=" + digest(body))
                && header(exchange, "Signature").equals("leat=" + signature(exchange, input));
    }

    private String signature(HttpExchange exchange, Matcher input) throws IOException {
        boolean tls = server instanceof HttpsServer;
        String base =
                "\"@method\": %s\n\"@target-uri\": %s://%s%s\n\"content-type\": %s\n"
                                .formatted(
                                        exchange.getRequestMethod(),
                                        tls ? "https" : "http",
                                        header(exchange, "Host"),
                                        exchange.getRequestURI(),
                                        header(exchange, "Content-Type"))
                        + "\"content-digest\": %s\n\"leat-message-id\": %s\n\"@signature-params\": %s"
                                .formatted(
                                        header(exchange, "Content-Digest"),
                                        header(exchange, "Leat-Message-Id"),
                                        input.group(1));
        try {
            Mac mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(SECRET.getBytes(UTF_8), "HmacSHA256"));
            return bytes(mac.doFinal(base.getBytes(UTF_8)));
        } catch (GeneralSecurityException e) {
            throw new IOException(e);
        }
    }

    private static String digest(byte[] body) throws IOException {
        try {
            return bytes(MessageDigest.getInstance("SHA-256").digest(body));
        } catch (GeneralSecurityException e) {
            throw new IOException(e);
        }
    }

    private static String bytes(byte[] value) {
        return ":" + Base64.getEncoder().encodeToString(value) + ":";
    }

    private static String header(HttpExchange exchange, String name) {
        return Optional.ofNullable(exchange.getRequestHeaders().getFirst(name)).orElse("0");
    }

    /** At most until the end. */
    private void await(long millis) {
        try {
            end.await(millis, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        end.countDown();
        server.stop(0);
        threads.shutdownNow();
        try {
            threads.awaitTermination(5, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
