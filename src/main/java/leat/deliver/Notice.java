package leat.deliver;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import leat.store.Message;

/**
 * The JSON of a message that is not about one alarm but about messages, or about leat itself. It
 * keeps to the schema {@code leat.notice/1}, see {@code config/notice-message.schema.json}.
 * Immutable.
 *
 * @param route the route that it is about
 * @param reason why it is sent, in English, for programs
 * @param messages ids of the messages that it is about; may be empty
 */
record Notice(String route, String reason, List<String> messages) {

    private static final String SCHEMA = "leat.notice/1";
    private static final String TOPIC = "notice";

    Notice {
        messages = List.copyOf(messages);
    }

    Message said(Notification notification, Voice voice, String subject, String text) {
        return said(notification, voice, subject, text, json -> {});
    }

    /**
     * @param more puts further fields into the JSON, before subject and text
     */
    Message said(
            Notification notification,
            Voice voice,
            String subject,
            String text,
            Consumer<ObjectNode> more) {
        About about = notification.about();
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("schema", SCHEMA);
        json.put("id", notification.id());
        json.put("site", voice.site());
        json.put("machine", about.machine());
        json.put("event", about.event());
        json.put("route", route);
        json.put("grade", about.grade().name().toLowerCase(Locale.ROOT));
        json.put("at", Voice.utc(notification.atMicros()));
        json.put("reason", reason);
        messages.forEach(json.putArray("messages")::add);
        more.accept(json);
        json.put("subject", subject);
        json.put("text", text);
        return notification.message(TOPIC, subject, text, json.toString());
    }
}
