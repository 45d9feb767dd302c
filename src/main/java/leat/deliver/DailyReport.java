package leat.deliver;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PlainText;

/**
 * The message that comes every day, so that its absence is noticed: one line per machine. There is
 * one of each date of the {@link SiteCalendar}. Immutable.
 */
public final class DailyReport {

    private static final String EVENT = "all-is-well";
    private static final int LONGEST_NAME = 80;

    private final String site;
    private final Figures figures;

    public DailyReport(Site site) {
        this.site = PlainText.harmless(requireNonNull(site, "site").name(), LONGEST_NAME);
        this.figures = new Figures(site.shownIn(), site.zone());
    }

    /**
     * @param days of the machines that the route carries
     */
    public Message message(String route, LocalDate date, List<MachineDay> days, long atMicros) {
        String id = EVENT + "/" + date;
        long standing = days.stream().mapToLong(MachineDay::standing).sum();
        String subject =
                (standing == 0 ? "all is well" : stand(standing)) + ": " + site + ", " + date;
        List<String> lines = new ArrayList<>();
        lines.add(
                standing == 0
                        ? site + ": leat runs and no alarm stands."
                        : site + ": leat runs, and " + stand(standing) + ".");
        days.forEach(day -> lines.add("- " + line(day)));
        lines.add("If this message does not come one day, look after leat.");
        lines.add("Message " + id + ".");
        String text = String.join("\n", lines);
        return new Message(
                id,
                "",
                Message.EVERY_MACHINE,
                "notice",
                Message.Kind.NOTICE,
                EVENT,
                Grade.ADVISORY,
                atMicros,
                subject,
                text,
                json(id, route, atMicros, subject, text));
    }

    private static String stand(long alarms) {
        return alarms == 1 ? "1 alarm stands" : alarms + " alarms stand";
    }

    private String line(MachineDay day) {
        String starts = day.starts() == 1 ? "1 start" : day.starts() + " starts";
        String last =
                day.lastReadingMicros().isPresent()
                        ? "last reading " + figures.local(day.lastReadingMicros().getAsLong())
                        : "no reading since leat started";
        return day.machine() + ": " + starts + ", " + stand(day.standing()) + ", " + last + ".";
    }

    private String json(String id, String route, long atMicros, String subject, String text) {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("schema", Undelivered.SCHEMA);
        json.put("id", id);
        json.put("site", site);
        json.put("machine", Message.EVERY_MACHINE);
        json.put("event", EVENT);
        json.put("route", route);
        json.put("grade", Grade.ADVISORY.name().toLowerCase(Locale.ROOT));
        json.put("at", Figures.instant(atMicros).toString());
        json.put("reason", "it is said every day");
        json.putArray("messages");
        json.put("subject", subject);
        json.put("text", text);
        return json.toString();
    }
}
