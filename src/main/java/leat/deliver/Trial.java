package leat.deliver;

import java.util.List;
import java.util.Optional;
import leat.rule.Grade;
import leat.store.Message;
import leat.words.Lines;

/**
 * That somebody tries whether messages arrive. Nothing has happened on any machine, and the message
 * says so in its first words: it is read by people who are used to being called. Immutable.
 */
public record Trial() implements About {

    /**
     * The message that tries one route; at another moment it is another message.
     *
     * @param route name of the route
     */
    public static Notification of(String route, long nowMicros) {
        String id = "test/" + Voice.utc(nowMicros);
        return new Notification(id, route, nowMicros, new Trial(), Optional.empty());
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
        return "test";
    }

    @Override
    public Grade grade() {
        return Grade.ADVISORY;
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        Voice voice = wording.voice();
        String site = voice.site();
        String text =
                new Lines()
                        .add(voice.say("test.what", site))
                        .add(voice.say("test.who", site, notification.route()))
                        .add(voice.say("test.answer"))
                        .add(voice.say("message", notification.id()))
                        .text();
        return new Notice(notification.route(), "somebody tries this route", List.of())
                .said(
                        notification,
                        voice,
                        voice.say("test.subject", site),
                        text,
                        json -> json.put("test", true));
    }
}
