package leat.deliver;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PlainText;

/** Says in one message that there were more. Immutable. */
public final class FloodWording {

    private static final String EVENT = "more";
    private static final int LONGEST_NAME = 80;

    private final String site;

    public FloodWording(Site site) {
        this.site = PlainText.harmless(requireNonNull(site, "site").name(), LONGEST_NAME);
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
        String subject =
                count
                        + (count == 1 ? " more message of " : " more messages of ")
                        + folded.machine()
                        + ", see leat alerts";
        String text =
                String.join(
                        "\n",
                        List.of(
                                grade + ": " + grade.meaning() + ".",
                                site + ", " + folded.machine() + ": too many messages at once.",
                                count
                                        + " more were not sent one by one, "
                                        + calls
                                        + " of them calls. The gravest is "
                                        + grade
                                        + ".",
                                "Check first: leat alerts shows what stands.",
                                "Message " + folded.id() + "."));
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
        json.put("site", site);
        json.put("machine", folded.machine());
        json.put("event", EVENT);
        json.put("route", folded.route());
        json.put("grade", grade.name().toLowerCase(Locale.ROOT));
        json.put("at", Figures.instant(atMicros).toString());
        json.put("reason", "too many messages at once");
        folded.messages().forEach(m -> json.withArray("messages").add(m.id()));
        json.put("subject", subject);
        json.put("text", text);
        return json.toString();
    }
}
