package leat.page;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import java.io.IOException;
import java.io.OutputStream;

/** Puts an answer on the wire. Each connection carries one: none is kept waiting for a next. */
final class Reply {

    private static final int NO_BODY = -1;
    private static final int UNTIL_THE_END = 0;

    private final Turns turns;

    Reply(Turns turns) {
        this.turns = turns;
    }

    void send(HttpExchange exchange, Answer answer) throws IOException {
        Headers headers = headers(exchange, answer.type(), answer.policy());
        answer.more().forEach(headers::set);
        turns.begins(Doing.SENDING);
        if (exchange.getRequestMethod().equals("HEAD")) {
            headers.set("Content-Length", Integer.toString(answer.body().length));
            exchange.sendResponseHeaders(answer.status(), NO_BODY);
            return;
        }
        exchange.sendResponseHeaders(answer.status(), answer.body().length);
        exchange.getResponseBody().write(answer.body());
    }

    /** Begins an answer whose end is open; of HEAD there is no more than that. */
    OutputStream stream(HttpExchange exchange, String type) throws IOException {
        headers(exchange, type, Policy.NOTHING);
        turns.begins(Doing.SENDING);
        boolean isHead = exchange.getRequestMethod().equals("HEAD");
        exchange.sendResponseHeaders(200, isHead ? NO_BODY : UNTIL_THE_END);
        return exchange.getResponseBody();
    }

    private static Headers headers(HttpExchange exchange, String type, Policy policy) {
        Headers headers = exchange.getResponseHeaders();
        policy.put(headers);
        headers.set("Content-Type", type);
        headers.set("Connection", "close");
        return headers;
    }
}
