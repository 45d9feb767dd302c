package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import leat.rule.Grade;
import leat.signal.PlainText;
import leat.store.Message;
import leat.words.Lines;

/**
 * A route has given messages up. Immutable.
 *
 * @param machine of the messages
 * @param lost of one route and one machine, at least one
 * @param reason why, in plain words
 */
record Undelivered(String machine, List<Message> lost, String reason) implements About {

    private static final int MOST_SHOWN = 10;
    private static final int LONGEST_REASON = 400;

    Undelivered {
        requireNonNull(machine, "machine");
        lost = List.copyOf(lost);
        requireNonNull(reason, "reason");
    }

    /** The route that gave up. */
    String route() {
        return lost.get(0).route();
    }

    String id() {
        return lost.get(0).id() + "/" + event() + "/" + route();
    }

    @Override
    public Message.Purpose kind() {
        return Message.Purpose.NOTICE;
    }

    @Override
    public String event() {
        return "undelivered";
    }

    @Override
    public Grade grade() {
        return lost.stream().map(Message::grade).max(Comparator.naturalOrder()).orElseThrow();
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        Voice voice = wording.voice();
        String count = voice.say("undelivered.count", lost.size());
        String why = PlainText.harmless(reason, LONGEST_REASON);
        Lines lines = new Lines();
        lines.add(voice.say("undelivered.given-up", count, machine, route()));
        lines.add(voice.say("undelivered.where", voice.site(), machine));
        lines.add(voice.say("undelivered.why", voice.reported(reason, LONGEST_REASON)));
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
        String text = lines.add(voice.say("message", notification.id())).text();
        String subject = voice.say("undelivered.subject", count, machine, route());
        return new Notice(route(), why, lost.stream().map(Message::id).toList())
                .said(notification, voice, subject, text);
    }
}
