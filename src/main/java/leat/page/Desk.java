package leat.page;

import static java.util.Objects.requireNonNull;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpHandler;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import leat.report.Shown;
import leat.work.KnownFaults;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Answers whoever calls: looks by which name and method, whether they may look, and then what for.
 * Nothing that is asked here changes anything in leat. Thread-safe.
 */
final class Desk implements HttpHandler {

    private static final Logger LOG = LoggerFactory.getLogger(Desk.class);
    private static final String RETRY_AFTER = "Retry-After";

    private final OwnNames names;
    private final Access access;
    private final SignIn signIn;
    private final Latest latest;
    private final Streams streams;
    private final StartReports reports;
    private final Turns turns;
    private final Reply reply;
    private final Shown shown;
    private final KnownFaults known = new KnownFaults();

    Desk(
            OwnNames names,
            Access access,
            SignIn signIn,
            Latest latest,
            Streams streams,
            StartReports reports,
            Turns turns,
            Shown shown) {
        this.names = requireNonNull(names, "names");
        this.access = requireNonNull(access, "access");
        this.signIn = requireNonNull(signIn, "signIn");
        this.latest = requireNonNull(latest, "latest");
        this.streams = requireNonNull(streams, "streams");
        this.reports = requireNonNull(reports, "reports");
        this.turns = requireNonNull(turns, "turns");
        this.shown = requireNonNull(shown, "shown");
        reply = new Reply(turns);
    }

    @Override
    public void handle(HttpExchange exchange) throws IOException {
        boolean isCrowded = turns.isCrowded();
        turns.begins(Doing.WORKING);
        try (exchange) {
            if (isCrowded) {
                reply.send(exchange, busy());
                return;
            }
            Optional<Answer> answer = answer(exchange);
            if (answer.isPresent()) {
                reply.send(exchange, answer.get());
            } else if (!streams.serve(exchange, reply)) {
                reply.send(exchange, busy());
            }
        }
    }

    private Answer busy() {
        return Answer.plain(503, shown.say("status.busy")).with(RETRY_AFTER, "5");
    }

    /** Empty for a stream. */
    private Optional<Answer> answer(HttpExchange exchange) throws IOException {
        try {
            return asked(exchange);
        } catch (RuntimeException e) {
            if (known.isNew(e.toString())) {
                LOG.error("page: {} failed, going on", exchange.getRequestURI().getPath(), e);
            }
            return Optional.of(Answer.plain(500, shown.say("status.fault")));
        }
    }

    private Optional<Answer> asked(HttpExchange exchange) throws IOException {
        String path = exchange.getRequestURI().getRawPath();
        List<String> hosts = exchange.getRequestHeaders().getOrDefault("Host", List.of());
        if (!names.include(hosts)) {
            return Optional.of(Answer.plain(421, shown.say("status.other-name")));
        }
        boolean isSignIn = access.asks() && Paths.SIGN_IN.equals(path);
        String method = exchange.getRequestMethod();
        if (isSignIn && method.equals("POST")) {
            return Optional.of(signIn.sent(exchange));
        }
        if (!method.equals("GET") && !method.equals("HEAD")) {
            return Optional.of(
                    Answer.plain(405, shown.say("status.only-read"))
                            .with("Allow", isSignIn ? "GET, HEAD, POST" : "GET, HEAD"));
        }
        if (isSignIn) {
            return Optional.of(signIn.asked());
        }
        Access.Verdict verdict =
                access.of(exchange.getRequestHeaders(), exchange.getRemoteAddress().getAddress());
        return verdict == Access.Verdict.MAY
                ? found(path)
                : Optional.of(signIn.refused(verdict, isForPeople(path)));
    }

    private static boolean isForPeople(String path) {
        return Paths.PAGE.equals(path) || Paths.start(path).isPresent();
    }

    private Optional<Answer> found(String path) {
        return switch (path) {
            case Paths.PAGE -> Optional.of(now(Snapshot::page));
            case Paths.HEALTH -> Optional.of(now(Snapshot::health));
            case Paths.METRICS -> Optional.of(now(Snapshot::metrics));
            case Paths.EVENTS -> Optional.empty();
            default ->
                    Optional.of(
                            Paths.start(path)
                                    .map(reports::of)
                                    .orElseGet(
                                            () -> Answer.plain(404, shown.say("status.not-here"))));
        };
    }

    private Answer now(Function<Snapshot, Answer> which) {
        turns.begins(Doing.WAITING);
        try {
            return latest.now().map(which).orElseGet(this::noFigures);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return noFigures();
        }
    }

    private Answer noFigures() {
        return Answer.plain(503, shown.say("status.starting")).with(RETRY_AFTER, "2");
    }
}
