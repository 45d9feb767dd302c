package leat.deliver;

import leat.alarm.AlarmChange;
import leat.config.Site;
import leat.rule.Finding;

/**
 * Says a change of an alarm in words that a technician can act on, in the language of the site. The
 * same change always gives the same message. Immutable.
 */
final class Wording {

    private final AlarmJson json;
    private final Subject subjects;
    private final CallText calls;
    private final NewsText news;

    Wording(Site site) {
        Voice voice = Voice.of(site);
        json = new AlarmJson(voice);
        subjects = new Subject(voice);
        calls = new CallText(voice);
        news = new NewsText(voice);
    }

    Message message(String machine, AlarmChange change) {
        String id = change.alarmId() + "/" + change.revision();
        String text =
                change.isCall() ? calls.of(machine, change, id) : news.of(machine, change, id);
        return message(
                id,
                machine,
                change,
                change.isCall() ? Message.Kind.CALL : Message.Kind.NEWS,
                change.event().key(),
                change.atMicros(),
                subjects.of(machine, change),
                text);
    }

    /** The call about an alarm that stands, told again as it is now. */
    Message reminder(Unanswered alarm, Reminder reminder, long atMicros) {
        return message(
                reminder.id(),
                alarm.machine(),
                alarm.latest(),
                Message.Kind.CALL,
                reminder.event(),
                atMicros,
                subjects.of(alarm.machine(), reminder, alarm.latest().finding()),
                calls.of(alarm, reminder.id()));
    }

    private Message message(
            String id,
            String machine,
            AlarmChange change,
            Message.Kind kind,
            String event,
            long atMicros,
            String subject,
            String text) {
        return new Message(
                id,
                change.alarmId(),
                machine,
                topic(machine, change.finding()),
                kind,
                event,
                change.finding().grade(),
                atMicros,
                subject,
                text,
                json.write(id, machine, change, event, subject, text));
    }

    /** One state per rule; for a rule about signals one per channel. */
    private static String topic(String machine, Finding finding) {
        String topic = machine + "/alarm/" + finding.rule().key();
        return finding.rule().isAboutSignal() ? topic + "/" + finding.channel().key() : topic;
    }
}
