package leat.deliver;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Comparator;
import java.util.Locale;
import leat.config.Site;
import leat.rule.Grade;
import leat.words.FindingWords;
import leat.words.Lines;

/** Says in one message that there were more. Immutable. */
public final class FloodWording {

    private static final String EVENT = "more";
    private final Voice voice;

    public FloodWording(Site site) {
        this.voice = Voice.of(site);
    }

    /**
     * The message that stands for the others, with the gravest of their grades. It is a call, so
     * that the other routes are told when it cannot be delivered.
     */
    public Message message(Folded folded, long atMicros) {
        int count = folded.messages().size();
        Grade grade =
                folded.messages().stream()
                        .map(Message::grade)
                        .max(Comparator.naturalOrder())
                        .orElseThrow();
        long calls = folded.messages().stream().filter(m -> m.kind() == Message.Kind.CALL).count();
        String subject = voice.say("flood.subject", count, folded.machine());
        FindingWords words = voice.findings();
        String text =
                new Lines()
                        .add(voice.say("call.grade", words.grade(grade), words.meaning(grade)))
                        .add(voice.say("flood.where", voice.site(), folded.machine()))
                        .add(voice.say("flood.count", count, calls, words.grade(grade)))
                        .add(voice.say("flood.check"))
                        .add(voice.say("caution", words.caution()))
                        .add(voice.say("message", folded.id()))
                        .text();
        return new Message(
                folded.id(),
                "",
                folded.machine(),
                "notice",
                Message.Kind.CALL,
                EVENT,
                grade,
                atMicros,
                subject,
                text,
                json(folded, grade, atMicros, subject, text));
    }

    private String json(Folded folded, Grade grade, long atMicros, String subject, String text) {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("schema", Undelivered.SCHEMA);
        json.put("id", folded.id());
        json.put("site", voice.site());
        json.put("machine", folded.machine());
        json.put("event", EVENT);
        json.put("route", folded.route());
        json.put("grade", grade.name().toLowerCase(Locale.ROOT));
        json.put("at", Voice.utc(atMicros));
        json.put("reason", "too many messages at once");
        folded.messages().forEach(m -> json.withArray("messages").add(m.id()));
        json.put("subject", subject);
        json.put("text", text);
        return json.toString();
    }
}
