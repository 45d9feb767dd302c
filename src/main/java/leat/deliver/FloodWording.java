package leat.deliver;

import java.util.List;
import leat.rule.Grade;
import leat.store.Message;
import leat.words.FindingWords;
import leat.words.Lines;

/** Says in one message that there were more. Immutable. */
final class FloodWording {

    private final Voice voice;

    FloodWording(Voice voice) {
        this.voice = voice;
    }

    /** The message that stands for the others, with the gravest of their grades. */
    Message message(Notification notification, More more) {
        int count = more.parts().size();
        Grade grade = more.grade();
        String subject = voice.say("flood.subject", count, more.machine());
        FindingWords words = voice.findings();
        String text =
                new Lines()
                        .add(voice.say("call.grade", words.grade(grade), words.meaning(grade)))
                        .add(voice.say("flood.where", voice.site(), more.machine()))
                        .add(voice.say("flood.count", count, more.calls(), words.grade(grade)))
                        .add(voice.say("flood.check"))
                        .add(voice.say("caution", words.caution()))
                        .add(voice.say("message", notification.id()))
                        .text();
        List<String> ids = more.parts().stream().map(More.Part::id).toList();
        return new Notice(notification.route(), "too many messages at once", ids)
                .said(notification, voice, subject, text);
    }
}
