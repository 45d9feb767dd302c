package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.List;
import leat.rule.Grade;
import leat.signal.PlainText;
import leat.store.Message;
import leat.words.Lines;

/**
 * How it stands with the store, for people. Immutable.
 *
 * @param news what has happened
 * @param grade who is told; the end of a trouble at the grade of its beginning
 * @param sinceMicros since when nothing can be stored, microseconds UTC
 * @param reason what was found, in plain words
 * @param lost readings that could not be kept
 */
public record StoreNotice(News news, Grade grade, long sinceMicros, String reason, long lost)
        implements About {

    private static final int LONGEST_REASON = 400;

    /** What can happen to a store while leat runs. */
    public enum News {
        /** It takes nothing. */
        FAILS("store-fails", "fails"),
        /** It takes everything again. */
        WORKS("store-works", "works"),
        /** Its file was not the one that was opened any more, and another was begun. */
        ANEW("store-anew", "anew"),
        /** Another leat holds it. */
        IN_USE("store-in-use", "in-use");

        private final String event;
        private final String phrase;

        News(String event, String phrase) {
            this.event = event;
            this.phrase = "store." + phrase + ".";
        }
    }

    public StoreNotice {
        requireNonNull(news, "news");
        requireNonNull(grade, "grade");
        requireNonNull(reason, "reason");
    }

    String id(long nowMicros) {
        return event() + "/" + Voice.utc(nowMicros);
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
        return news.event;
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        Voice voice = wording.voice();
        String since = voice.numbers().time(sinceMicros);
        String why = PlainText.harmless(reason, LONGEST_REASON);
        Lines lines = new Lines();
        lines.add(voice.say(news.phrase + "what", voice.site()));
        if (news == News.WORKS) {
            lines.add(voice.say("store.works.lost", since, lost));
        } else {
            lines.add(voice.say("store.since", since));
            lines.add(voice.say("store.why", voice.reported(reason, LONGEST_REASON)));
            lines.add(voice.say(news.phrase + "check"));
        }
        String text = lines.add(voice.say("message", notification.id())).text();
        return new Notice(notification.route(), why, List.of())
                .said(notification, voice, voice.say(news.phrase + "subject", voice.site()), text);
    }
}
