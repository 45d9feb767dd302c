package leat.deliver;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PlainText;
import leat.words.Lines;

/**
 * Says to the other routes that one route has given messages up. The JSON keeps to the schema
 * {@code leat.notice/1}, see {@code config/notice-message.schema.json}. Immutable.
 */
final class Undelivered {

    static final String SCHEMA = "leat.notice/1";
    private static final String EVENT = "undelivered";
    private static final int MOST_SHOWN = 10;
    private static final int LONGEST_REASON = 400;

    private final Voice voice;

    Undelivered(Site site) {
        this.voice = Voice.of(site);
    }

    /**
     * @param lost of one route and one machine, at least one
     */
    Message notice(List<Owed> lost, String reason, long atMicros) {
        Message first = lost.get(0).message();
        String route = lost.get(0).route();
        String id = first.id() + "/" + EVENT + "/" + route;
        Grade grade =
                lost.stream()
                        .map(owed -> owed.message().grade())
                        .max(Comparator.naturalOrder())
                        .orElseThrow();
        String count = voice.say("undelivered.count", lost.size());
        String subject = voice.say("undelivered.subject", count, first.machine(), route);
        String text = text(lost, count, PlainText.harmless(reason, LONGEST_REASON), id);
        return new Message(
                id,
                "",
                first.machine(),
                "notice",
                Message.Kind.NOTICE,
                EVENT,
                grade,
                atMicros,
                subject,
                text,
                json(lost, id, grade, atMicros, reason, subject, text));
    }

    private String text(List<Owed> lost, String count, String reason, String id) {
        Message first = lost.get(0).message();
        String route = lost.get(0).route();
        Lines lines = new Lines();
        lines.add(voice.say("undelivered.given-up", count, first.machine(), route));
        lines.add(voice.say("undelivered.where", voice.site(), first.machine()));
        lines.add(voice.say("undelivered.why", reason));
        lines.add(voice.say("undelivered.untold"));
        lost.stream()
                .limit(MOST_SHOWN)
                .map(Owed::message)
                .map(
                        m ->
                                voice.say(
                                        "undelivered.one",
                                        voice.numbers().time(m.atMicros()),
                                        m.subject()))
                .forEach(lines::add);
        if (lost.size() > MOST_SHOWN) {
            lines.add(voice.say("undelivered.more", lost.size() - MOST_SHOWN));
        }
        lines.add(voice.say("undelivered.check"));
        return lines.add(voice.say("message", id)).text();
    }

    private String json(
            List<Owed> lost,
            String id,
            Grade grade,
            long atMicros,
            String reason,
            String subject,
            String text) {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("schema", SCHEMA);
        json.put("id", id);
        json.put("site", voice.site());
        json.put("machine", lost.get(0).message().machine());
        json.put("event", EVENT);
        json.put("route", lost.get(0).route());
        json.put("grade", grade.name().toLowerCase(Locale.ROOT));
        json.put("at", Voice.utc(atMicros));
        json.put("reason", PlainText.harmless(reason, LONGEST_REASON));
        lost.forEach(owed -> json.withArray("messages").add(owed.message().id()));
        json.put("subject", subject);
        json.put("text", text);
        return json.toString();
    }
}
