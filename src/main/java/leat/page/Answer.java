package leat.page;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What is sent back.
 *
 * @param status of HTTP
 * @param type media type
 * @param body its bytes; nobody changes them
 * @param policy what a browser may do with it
 * @param more further headers
 */
record Answer(int status, String type, byte[] body, Policy policy, Map<String, String> more) {

    static final String PLAIN = "text/plain; charset=utf-8";
    static final String HTML = "text/html; charset=utf-8";
    static final String JSON = "application/json";

    Answer {
        requireNonNull(type, "type");
        requireNonNull(body, "body");
        requireNonNull(policy, "policy");
        more = Map.copyOf(more);
    }

    static Answer plain(int status, String words) {
        byte[] body = (words + "\n").getBytes(UTF_8);
        return new Answer(status, PLAIN, body, Policy.NOTHING, Map.of());
    }

    static Answer html(int status, String document, Policy policy) {
        return new Answer(status, HTML, document.getBytes(UTF_8), policy, Map.of());
    }

    Answer with(String header, String value) {
        Map<String, String> all = new LinkedHashMap<>(more);
        all.put(header, value);
        return new Answer(status, type, body, policy, all);
    }
}
