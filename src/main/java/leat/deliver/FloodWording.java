package leat.deliver;

import java.util.Comparator;
import leat.config.Site;
import leat.rule.Grade;
import leat.words.FindingWords;
import leat.words.Lines;

/** Says in one message that there were more. Immutable. */
public final class FloodWording {

    private static final String EVENT = "more";
    private final Voice voice;

    public FloodWording(Site site) {
        this.voice = Voice.of(site);
    }

    /**
     * The message that stands for the others, with the gravest of their grades. It is a call, so
     * that the other routes are told when it cannot be delivered.
     */
    public Message message(Folded folded, long atMicros) {
        int count = folded.messages().size();
        Grade grade =
                folded.messages().stream()
                        .map(Message::grade)
                        .max(Comparator.naturalOrder())
                        .orElseThrow();
        long calls = folded.messages().stream().filter(m -> m.kind() == Message.Kind.CALL).count();
        String subject = voice.say("flood.subject", count, folded.machine());
        FindingWords words = voice.findings();
        String text =
                new Lines()
                        .add(voice.say("call.grade", words.grade(grade), words.meaning(grade)))
                        .add(voice.say("flood.where", voice.site(), folded.machine()))
                        .add(voice.say("flood.count", count, calls, words.grade(grade)))
                        .add(voice.say("flood.check"))
                        .add(voice.say("caution", words.caution()))
                        .add(voice.say("message", folded.id()))
                        .text();
        Notice notice =
                new Notice(
                        folded.id(),
                        folded.machine(),
                        Message.Kind.CALL,
                        EVENT,
                        folded.route(),
                        grade,
                        atMicros,
                        "too many messages at once",
                        folded.messages().stream().map(Message::id).toList());
        return notice.said(voice, subject, text);
    }
}
