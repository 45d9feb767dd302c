package leat.system;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.function.Predicate;

/**
 * The receiver of webhooks, in the test's own process. It takes every message and answers as a
 * program does that writes it down first, up to 10 ms later, so that leat can be killed in between.
 * At once, before it answers, it looks whether the store holds what it is told. While it is away it
 * takes nothing. Thread-safe.
 */
final class HookDesk implements AutoCloseable {

    private static final Duration LONGEST_WORK = Duration.ofMillis(10);

    private final Predicate<String> isStored;
    private final Consumer<byte[]> bodies;
    private final HttpServer server;
    private final ExecutorService threads = Executors.newCachedThreadPool();
    private final List<String> heard = new CopyOnWriteArrayList<>();
    private final List<String> early = new CopyOnWriteArrayList<>();
    private final AtomicLong requests = new AtomicLong();
    private volatile boolean away;

    /**
     * @param isStored whether the store holds the message with this id
     */
    HookDesk(Predicate<String> isStored) throws IOException {
        this(isStored, body -> {});
    }

    /**
     * @param bodies is handed what comes while it is not away, on many threads
     */
    HookDesk(Predicate<String> isStored, Consumer<byte[]> bodies) throws IOException {
        this.isStored = isStored;
        this.bodies = bodies;
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/leat", this::take);
        server.setExecutor(threads);
        server.start();
    }

    URI url() {
        return URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/leat");
    }

    /** Ids of what it was told, in order, repeats included. */
    List<String> heard() {
        return List.copyOf(heard);
    }

    /** How often it was called, away or not. */
    long requests() {
        return requests.get();
    }

    /** From now on it is away, or there. */
    void beAway(boolean newAway) {
        away = newAway;
    }

    /** Ids of what the store did not hold when it was told. */
    List<String> early() {
        return List.copyOf(early);
    }

    private void take(HttpExchange exchange) throws IOException {
        try (exchange) {
            byte[] body = exchange.getRequestBody().readAllBytes();
            requests.incrementAndGet();
            if (away) {
                exchange.sendResponseHeaders(503, -1);
                return;
            }
            String id = exchange.getRequestHeaders().getFirst("Leat-Message-Id");
            heard.add(id);
            bodies.accept(body);
            if (!isStored.test(id)) {
                early.add(id);
            }
            TimeUnit.NANOSECONDS.sleep(
                    ThreadLocalRandom.current().nextLong(LONGEST_WORK.toNanos()));
            exchange.sendResponseHeaders(204, -1);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        server.stop(0);
        threads.shutdownNow();
    }
}
