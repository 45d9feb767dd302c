package leat.deliver;

import java.util.List;
import leat.store.Message;
import leat.words.Lines;

/** Says each day how it goes: one line per machine. Immutable. */
final class DayWording {

    private final Voice voice;

    DayWording(Voice voice) {
        this.voice = voice;
    }

    Message message(Notification notification, Day day) {
        long standing = day.standing();
        String site = voice.site();
        String subject =
                standing == 0
                        ? voice.say("daily.subject.well", site, day.date())
                        : voice.say("daily.subject.standing", alarms(standing), site, day.date());
        Lines lines = new Lines();
        lines.add(
                standing == 0
                        ? voice.say("daily.well", site)
                        : voice.say("daily.standing", site, alarms(standing)));
        day.days().forEach(machine -> lines.add(line(machine)));
        lines.add(voice.say("daily.missing"));
        String text = lines.add(voice.say("message", notification.id())).text();
        return new Notice(notification.route(), "it is said every day", List.of())
                .said(notification, voice, subject, text);
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
