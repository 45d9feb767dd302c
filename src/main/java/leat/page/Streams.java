package leat.page;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import com.sun.net.httpserver.HttpExchange;
import java.io.IOException;
import java.io.OutputStream;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import leat.json.RecordJson;

/**
 * Those who are told what is new each second, by server-sent events (WHATWG HTML, section 9.2).
 * Each takes a thread of {@link Turns} for as long as it listens, so that their number is bounded
 * well below that of the threads. After five minutes a stream ends, and the browser asks again.
 * Thread-safe.
 */
final class Streams {

    static final int MOST = 12;

    private static final String TYPE = "text/event-stream; charset=utf-8";
    private static final Duration LONGEST = Duration.ofMinutes(5);
    private static final Duration PATIENCE = Duration.ofSeconds(10);
    private static final String AGAIN_AFTER_MILLIS = "retry: 3000\n\n";

    private final Latest latest;
    private final Turns turns;
    private final Semaphore places = new Semaphore(MOST);

    /** What an event holds. */
    record Fresh(Map<String, String> parts) {}

    Streams(Latest latest, Turns turns) {
        this.latest = requireNonNull(latest, "latest");
        this.turns = requireNonNull(turns, "turns");
    }

    int listeners() {
        return MOST - places.availablePermits();
    }

    /**
     * Serves one until it goes.
     *
     * @return false, and nothing was sent, where there is no place
     */
    boolean serve(HttpExchange exchange, Reply reply) throws IOException {
        if (!places.tryAcquire()) {
            return false;
        }
        try {
            OutputStream out = reply.stream(exchange, TYPE);
            if (!exchange.getRequestMethod().equals("HEAD")) {
                tell(out);
            }
            return true;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return true;
        } finally {
            places.release();
        }
    }

    private void tell(OutputStream out) throws IOException, InterruptedException {
        send(out, AGAIN_AFTER_MILLIS);
        long end = System.nanoTime() + LONGEST.toNanos();
        Map<String, String> told = Map.of();
        long number = 0;
        while (System.nanoTime() < end) {
            turns.begins(Doing.WAITING);
            Optional<Latest.Numbered> next = latest.after(number, PATIENCE);
            if (next.isEmpty()) {
                return;
            }
            Snapshot snapshot = next.get().snapshot();
            send(out, event(snapshot.freshSince(told)));
            told = snapshot.parts();
            number = next.get().number();
        }
    }

    private void send(OutputStream out, String text) throws IOException {
        turns.begins(Doing.SENDING);
        out.write(text.getBytes(UTF_8));
        out.flush();
    }

    /** The JSON is on one line. */
    private static String event(Map<String, String> fresh) {
        return "event: fresh\ndata: " + RecordJson.write(new Fresh(fresh)) + "\n\n";
    }
}
