package leat.deliver;

import java.util.List;
import leat.signal.PlainText;
import leat.store.Message;
import leat.words.Lines;

/** Says to the other routes that one route has given messages up. Immutable. */
final class UndeliveredWording {

    private static final int MOST_SHOWN = 10;
    private static final int LONGEST_REASON = 400;

    private final Voice voice;

    UndeliveredWording(Voice voice) {
        this.voice = voice;
    }

    Message message(Notification notification, Undelivered undelivered) {
        String count = voice.say("undelivered.count", undelivered.lost().size());
        String subject =
                voice.say("undelivered.subject", count, undelivered.machine(), undelivered.route());
        String why = PlainText.harmless(undelivered.reason(), LONGEST_REASON);
        String text = text(undelivered, count, why, notification.id());
        List<String> ids = undelivered.lost().stream().map(Message::id).toList();
        return new Notice(undelivered.route(), why, ids).said(notification, voice, subject, text);
    }

    private String text(Undelivered undelivered, String count, String reason, String id) {
        List<Message> lost = undelivered.lost();
        Lines lines = new Lines();
        lines.add(
                voice.say(
                        "undelivered.given-up", count, undelivered.machine(), undelivered.route()));
        lines.add(voice.say("undelivered.where", voice.site(), undelivered.machine()));
        lines.add(voice.say("undelivered.why", reason));
        lines.add(voice.say("undelivered.untold"));
        lost.stream()
                .limit(MOST_SHOWN)
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
}
