package leat.deliver;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import leat.rule.Grade;

/**
 * A message that is not about one alarm but about messages, or about leat itself. Its JSON keeps to
 * the schema {@code leat.notice/1}, see {@code config/notice-message.schema.json}. Immutable.
 *
 * @param id the same for every repeat
 * @param machine its name, or {@link Message#EVERY_MACHINE}
 * @param kind what it wants of its reader
 * @param event what happened, in the word of the JSON
 * @param route the route that it is about
 * @param grade the gravest that it is about
 * @param atMicros now, microseconds UTC
 * @param reason why it is sent, in English, for programs
 * @param messages ids of the messages that it is about; may be empty
 */
record Notice(
        String id,
        String machine,
        Message.Kind kind,
        String event,
        String route,
        Grade grade,
        long atMicros,
        String reason,
        List<String> messages) {

    private static final String SCHEMA = "leat.notice/1";
    private static final String TOPIC = "notice";

    Notice {
        requireNonNull(id, "id");
        requireNonNull(machine, "machine");
        requireNonNull(kind, "kind");
        requireNonNull(event, "event");
        requireNonNull(route, "route");
        requireNonNull(grade, "grade");
        requireNonNull(reason, "reason");
        messages = List.copyOf(messages);
    }

    Message said(Voice voice, String subject, String text) {
        return said(voice, subject, text, json -> {});
    }

    /**
     * @param more puts further fields into the JSON, before subject and text
     */
    Message said(Voice voice, String subject, String text, Consumer<ObjectNode> more) {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("schema", SCHEMA);
        json.put("id", id);
        json.put("site", voice.site());
        json.put("machine", machine);
        json.put("event", event);
        json.put("route", route);
        json.put("grade", grade.name().toLowerCase(Locale.ROOT));
        json.put("at", Voice.utc(atMicros));
        json.put("reason", reason);
        messages.forEach(json.putArray("messages")::add);
        more.accept(json);
        json.put("subject", subject);
        json.put("text", text);
        return new Message(
                id,
                "",
                machine,
                TOPIC,
                kind,
                event,
                grade,
                atMicros,
                subject,
                text,
                json.toString());
    }
}
