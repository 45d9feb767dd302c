package leat.deliver;

import java.time.LocalDate;
import java.util.List;
import leat.config.Site;
import leat.rule.Grade;
import leat.words.Lines;

/**
 * The message that comes every day, so that its absence is noticed: one line per machine. There is
 * one of each date of the {@link SiteCalendar}. Immutable.
 */
public final class DailyReport {

    private static final String EVENT = "all-is-well";

    private final Voice voice;

    public DailyReport(Site site) {
        this.voice = Voice.of(site);
    }

    /**
     * @param days of the machines that the route carries
     */
    public Message message(String route, LocalDate date, List<MachineDay> days, long atMicros) {
        String id = EVENT + "/" + date;
        long standing = days.stream().mapToLong(MachineDay::standing).sum();
        String site = voice.site();
        String subject =
                standing == 0
                        ? voice.say("daily.subject.well", site, date)
                        : voice.say("daily.subject.standing", alarms(standing), site, date);
        Lines lines = new Lines();
        lines.add(
                standing == 0
                        ? voice.say("daily.well", site)
                        : voice.say("daily.standing", site, alarms(standing)));
        days.forEach(day -> lines.add(line(day)));
        lines.add(voice.say("daily.missing"));
        String text = lines.add(voice.say("message", id)).text();
        Notice notice =
                new Notice(
                        id,
                        Message.EVERY_MACHINE,
                        Message.Kind.NOTICE,
                        EVENT,
                        route,
                        Grade.ADVISORY,
                        atMicros,
                        "it is said every day",
                        List.of());
        return notice.said(voice, subject, text);
    }

    private String alarms(long standing) {
        return voice.say("daily.alarms", standing);
    }

    private String line(MachineDay day) {
        String last =
                day.lastReadingMicros().isPresent()
                        ? voice.say(
                                "daily.last",
                                voice.numbers().time(day.lastReadingMicros().getAsLong()))
                        : voice.say("daily.never");
        return voice.say(
                "daily.machine",
                day.machine(),
                voice.say("daily.starts", day.starts()),
                alarms(day.standing()),
                last);
    }
}
