package leat.deliver;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PlainText;

/**
 * Says what has become of the ADVISORY alarms of a day: a short list first, then of each that
 * stands what its call would have said. Immutable.
 */
public final class DigestWording {

    private static final String EVENT = "digest";
    private static final int LONGEST_NAME = 80;

    /** Alarms listed in each part; leat's own choice, as the figures below. */
    private static final int MOST_ALARMS = 30;

    /** Messages of one alarm that are listed: the first two and the last two. */
    private static final int MOST_LINES = 4;

    private static final int MOST_CALLS = 10;

    private final String site;
    private final Figures figures;

    public DigestWording(Site site) {
        this.site = PlainText.harmless(requireNonNull(site, "site").name(), LONGEST_NAME);
        this.figures = new Figures(site.shownIn(), site.zone());
    }

    /**
     * The message that stands for the others. Nobody has to go anywhere for it, but the other
     * routes are told when it cannot be delivered.
     */
    public Message message(Digest digest, long atMicros) {
        String subject = counts(digest) + ": " + site + ", " + digest.date();
        String text = text(digest);
        return new Message(
                digest.id(),
                "",
                digest.machine(),
                "notice",
                Message.Kind.NEWS,
                EVENT,
                Grade.ADVISORY,
                atMicros,
                subject,
                text,
                json(digest, atMicros, subject, text));
    }

    private static String counts(Digest digest) {
        List<String> counts = new ArrayList<>();
        long standing = digest.standing();
        counts.add(
                standing == 0
                        ? "no advisory stands"
                        : standing == 1 ? "1 advisory stands" : standing + " advisories stand");
        count(digest.of(DigestFate.GRAVER).size(), " got graver", " got graver", counts);
        count(digest.of(DigestFate.ASIDE).size(), " is put aside", " are put aside", counts);
        count(digest.gone().size(), " has gone", " have gone", counts);
        return String.join(", ", counts);
    }

    private static void count(int number, String one, String more, List<String> counts) {
        if (number > 0) {
            counts.add(number + (number == 1 ? one : more));
        }
    }

    private String text(Digest digest) {
        List<String> lines = new ArrayList<>();
        if (digest.standing() > 0) {
            lines.add(Grade.ADVISORY + ": " + Grade.ADVISORY.meaning() + ".");
        }
        lines.add(site + ": " + counts(digest) + ".");
        List<Digest.Entry> standing = digest.of(DigestFate.STANDS);
        part("Stands now:", standing, lines);
        before(digest.before(), standing.isEmpty(), lines);
        part("Got graver and was told at once:", digest.of(DigestFate.GRAVER), lines);
        part("There, but put aside:", digest.of(DigestFate.ASIDE), lines);
        part("Has gone meanwhile:", digest.gone(), lines);
        calls(standing, lines);
        lines.add(
                "leat alerts shows what stands and its NUMBER; leat ack NUMBER says that you have seen it.");
        lines.add("Message " + digest.id() + ".");
        return String.join("\n", lines);
    }

    private static void before(long before, boolean alone, List<String> lines) {
        if (before > 0) {
            lines.add(
                    alone
                            ? "Nothing new of what stands: " + before + ", told earlier."
                            : "- and " + before + " more, told earlier.");
        }
    }

    private void part(String head, List<Digest.Entry> entries, List<String> lines) {
        if (entries.isEmpty()) {
            return;
        }
        lines.add(head);
        entries.stream().limit(MOST_ALARMS).forEach(entry -> entry(entry, lines));
        if (entries.size() > MOST_ALARMS) {
            lines.add("- and " + (entries.size() - MOST_ALARMS) + " more alarms.");
        }
    }

    private void entry(Digest.Entry entry, List<String> lines) {
        int count = entry.lines().size();
        for (int i = 0; i < count; i++) {
            DigestLine line = entry.lines().get(i);
            if (count <= MOST_LINES || i < MOST_LINES / 2 || i >= count - MOST_LINES / 2) {
                lines.add(
                        (i == 0 ? "- " : "  ")
                                + figures.local(line.atMicros())
                                + ": "
                                + line.subject());
            } else if (i == MOST_LINES / 2) {
                lines.add("  and " + (count - MOST_LINES) + " messages in between");
            }
        }
        switch (entry.fate()) {
            case GONE_UNACKNOWLEDGED -> lines.add("  Nobody has acknowledged it yet.");
            case LATCHED -> lines.add("  It is latched and waits for its reset.");
            case STANDS, GRAVER, ASIDE, GONE -> {
                // the head of its part says it
            }
        }
    }

    private static void calls(List<Digest.Entry> standing, List<String> lines) {
        List<String> calls = standing.stream().flatMap(entry -> entry.call().stream()).toList();
        for (String call : calls.subList(0, Math.min(MOST_CALLS, calls.size()))) {
            lines.add("");
            lines.add(call);
        }
        if (!calls.isEmpty()) {
            lines.add("");
        }
    }

    private String json(Digest digest, long atMicros, String subject, String text) {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("schema", Undelivered.SCHEMA);
        json.put("id", digest.id());
        json.put("site", site);
        json.put("machine", digest.machine());
        json.put("event", EVENT);
        json.put("route", digest.route());
        json.put("grade", Grade.ADVISORY.name().toLowerCase(Locale.ROOT));
        json.put("at", Figures.instant(atMicros).toString());
        json.put("reason", "advisories are told once a day");
        for (Digest.Entry entry : digest.entries()) {
            entry.lines().forEach(line -> json.withArray("messages").add(line.id()));
            json.withArray("alarms")
                    .addObject()
                    .put("alarm", entry.alarmId())
                    .put("machine", entry.machine())
                    .put("now", entry.fate().key());
        }
        json.put("subject", subject);
        json.put("text", text);
        return json.toString();
    }
}
