package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.util.List;
import leat.rule.Grade;
import leat.store.Message;
import leat.words.Lines;

/**
 * How the last day went: comes every day, so that its absence is noticed. Immutable.
 *
 * @param date of the site's calendar on which it is told
 * @param days of the machines that the route carries
 */
record Day(LocalDate date, List<MachineDay> days) implements About {

    static final String EVENT = "all-is-well";

    Day {
        requireNonNull(date, "date");
        days = List.copyOf(days);
    }

    @Override
    public String machine() {
        return Message.EVERY_MACHINE;
    }

    @Override
    public Message.Purpose kind() {
        return Message.Purpose.NOTICE;
    }

    @Override
    public String event() {
        return EVENT;
    }

    @Override
    public Grade grade() {
        return Grade.ADVISORY;
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        Voice voice = wording.voice();
        String site = voice.site();
        long standing = days.stream().mapToLong(MachineDay::standing).sum();
        boolean isWell = standing == 0;
        String alarms = alarms(voice, standing);
        Lines lines = new Lines();
        lines.add(
                isWell ? voice.say("daily.well", site) : voice.say("daily.standing", site, alarms));
        days.forEach(day -> lines.add(line(voice, day)));
        lines.add(voice.say("daily.missing"));
        String subject =
                isWell
                        ? voice.say("daily.subject.well", site, date)
                        : voice.say("daily.subject.standing", alarms, site, date);
        String text = lines.add(voice.say("message", notification.id())).text();
        return new Notice(notification.route(), "it is said every day", List.of())
                .said(notification, voice, subject, text);
    }

    private static String alarms(Voice voice, long standing) {
        return voice.say("daily.alarms", standing);
    }

    private static String line(Voice voice, MachineDay day) {
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
                alarms(voice, day.standing()),
                last);
    }
}
