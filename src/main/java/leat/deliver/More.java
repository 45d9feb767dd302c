package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import leat.rule.Grade;
import leat.store.Message;
import leat.words.FindingWords;
import leat.words.Lines;

/**
 * Messages of one machine that a route does not get one by one, because it got too many. Immutable.
 *
 * @param machine name of the machine
 * @param parts those that are not told themselves, in their order, at least one
 */
record More(String machine, List<Part> parts) implements About {

    /**
     * A message that another one stands for.
     *
     * @param id its id
     * @param grade how grave
     * @param isCall whether somebody would have been called
     */
    record Part(String id, Grade grade, boolean isCall) {
        Part {
            requireNonNull(id, "id");
            requireNonNull(grade, "grade");
        }
    }

    More {
        requireNonNull(machine, "machine");
        parts = List.copyOf(parts);
    }

    /** A call, so that the other routes are told when it cannot be delivered. */
    @Override
    public Message.Purpose kind() {
        return Message.Purpose.CALL;
    }

    @Override
    public String event() {
        return "more";
    }

    @Override
    public Grade grade() {
        return parts.stream().map(Part::grade).max(Comparator.naturalOrder()).orElseThrow();
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        Voice voice = wording.voice();
        FindingWords words = voice.findings();
        String grade = words.grade(grade());
        int count = parts.size();
        long calls = parts.stream().filter(Part::isCall).count();
        String text =
                new Lines()
                        .add(voice.say("call.grade", grade, words.meaning(grade())))
                        .add(voice.say("flood.where", voice.site(), machine))
                        .add(voice.say("flood.count", count, calls, grade))
                        .add(voice.say("flood.check"))
                        .add(voice.say("caution", words.caution()))
                        .add(voice.say("message", notification.id()))
                        .text();
        List<String> ids = parts.stream().map(Part::id).toList();
        return new Notice(notification.route(), "too many messages at once", ids)
                .said(notification, voice, voice.say("flood.subject", count, machine), text);
    }
}
