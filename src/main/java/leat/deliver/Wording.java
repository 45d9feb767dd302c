package leat.deliver;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.config.Site;
import leat.diagnose.Diagnosis;
import leat.rule.Finding;
import leat.store.Message;
import leat.words.Lines;

/**
 * Puts messages into words that a technician can act on, in the language of the site. The same
 * facts always give the same message. Immutable.
 */
public final class Wording {

    private final Voice voice;
    private final AlarmJson json;
    private final Subject subjects;
    private final CallText calls;
    private final NewsText news;
    private final OutageText outages;
    private final MoreText more;
    private final DigestWording digest;

    public Wording(Site site) {
        voice = Voice.of(site);
        json = new AlarmJson(voice);
        subjects = new Subject(voice);
        calls = new CallText(voice);
        news = new NewsText(voice);
        outages = new OutageText(voice);
        more = new MoreText(voice);
        digest = new DigestWording(voice, subjects, calls);
    }

    public Message message(Notification notification) {
        return notification.about().in(this, notification);
    }

    Message changed(Notification notification, Changed changed) {
        AlarmChange change = changed.change();
        return message(
                notification,
                change,
                changed.why(),
                changed.number(),
                subjects.of(changed),
                change.isCall() ? calls.of(changed) : news.of(changed, notification.id()));
    }

    /** The call about an alarm that stands, as it is now. */
    Message later(Notification notification, LaterCall call) {
        return message(
                notification,
                call.latest(),
                call.why(),
                call.number(),
                subjects.of(call),
                calls.of(call));
    }

    /** The call about channels that fell silent together. */
    Message outage(Notification notification, OutageCall call) {
        return message(
                notification,
                call.latest(),
                call.why(),
                call.number(),
                outages.subject(call),
                outages.of(call));
    }

    Message over(Notification notification, OutageOver over) {
        String text = outages.over(over, notification.id());
        return new Notice(notification.route(), "silent channels are read again", over.messages())
                .said(notification, voice, outages.subject(over), text);
    }

    Message more(Notification notification, More told) {
        List<String> ids = told.parts().stream().map(More.Part::id).toList();
        return new Notice(notification.route(), "too many messages at once", ids)
                .said(notification, voice, more.subject(told), more.of(told, notification));
    }

    Message digest(Notification notification, Digest told) {
        return digest.message(notification, told);
    }

    /**
     * The same message, told before it is stored: who looks for it in leat's records does not find
     * it yet.
     */
    public Message unstored(Message message) {
        String text = new Lines().asIs(message.text()).add(voice.say("unstored")).text();
        return message.saying(text, AlarmJson.unstored(message.json(), text));
    }

    /** For what says itself. */
    Voice voice() {
        return voice;
    }

    private Message message(
            Notification notification,
            AlarmChange change,
            Optional<Diagnosis> why,
            OptionalLong number,
            String subject,
            String text) {
        About about = notification.about();
        String id = notification.id();
        return notification.message(
                topic(about.machine(), change.finding()),
                subject,
                text,
                json.write(id, about, change, why, number, subject, text));
    }

    /** One state per rule; for a rule about signals one per channel. */
    private static String topic(String machine, Finding finding) {
        String topic = machine + "/alarm/" + finding.rule().key();
        return finding.rule().isAboutSignal() ? topic + "/" + finding.channel().key() : topic;
    }
}
