package leat.deliver;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PlainText;

/**
 * Says to the other routes that one route has given messages up. The JSON keeps to the schema
 * {@code leat.notice/1}, see {@code config/notice-message.schema.json}. Immutable.
 */
final class Undelivered {

    static final String SCHEMA = "leat.notice/1";
    private static final String EVENT = "undelivered";
    private static final int MOST_SHOWN = 10;
    private static final int LONGEST_NAME = 80;
    private static final int LONGEST_REASON = 400;

    private final String site;
    private final Figures figures;

    Undelivered(Site site) {
        this.site = PlainText.harmless(requireNonNull(site, "site").name(), LONGEST_NAME);
        this.figures = new Figures(site.shownIn(), site.zone());
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
        String count = lost.size() == 1 ? "1 message" : lost.size() + " messages";
        String subject = "NOT DELIVERED " + first.machine() + ": " + count + " on route " + route;
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
        List<String> lines = new ArrayList<>();
        lines.add("Not delivered: " + count + " on route " + lost.get(0).route() + ", given up.");
        lines.add(site + ", " + first.machine() + ".");
        lines.add("Why: " + reason);
        lines.add("Whoever reads only that route has not been told of:");
        lost.stream()
                .limit(MOST_SHOWN)
                .map(Owed::message)
                .map(m -> "- " + figures.local(m.atMicros()) + ": " + m.subject())
                .forEach(lines::add);
        if (lost.size() > MOST_SHOWN) {
            lines.add("- and " + (lost.size() - MOST_SHOWN) + " more.");
        }
        lines.add("Check first: tell those people, then the route's settings and its receiver.");
        lines.add("Message " + id + ".");
        return String.join("\n", lines);
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
        json.put("site", site);
        json.put("machine", lost.get(0).message().machine());
        json.put("event", EVENT);
        json.put("route", lost.get(0).route());
        json.put("grade", grade.name().toLowerCase(Locale.ROOT));
        json.put("at", Figures.instant(atMicros).toString());
        json.put("reason", PlainText.harmless(reason, LONGEST_REASON));
        lost.forEach(owed -> json.withArray("messages").add(owed.message().id()));
        json.put("subject", subject);
        json.put("text", text);
        return json.toString();
    }
}
