package leat.deliver;

import java.util.Comparator;
import java.util.List;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PlainText;
import leat.words.Lines;

/**
 * Says to the other routes that one route has given messages up. The JSON keeps to the schema
 * {@code leat.notice/1}, see {@code config/notice-message.schema.json}. Immutable.
 */
final class Undelivered {

    private static final String EVENT = "undelivered";
    private static final int MOST_SHOWN = 10;
    private static final int LONGEST_REASON = 400;

    private final Voice voice;

    Undelivered(Site site) {
        this.voice = Voice.of(site);
    }

    /**
     * @param lost of one route and one machine, at least one
     */
    Message notice(List<Owed> lost, String reason, long atMicros) {
        Message first = lost.get(0).message();
        String route = lost.get(0).route();
        String id = first.id() + "/" + EVENT + "/" + route;
        Grade grade =
                lost.stream()
                        .map(owed -> owed.message().grade())
                        .max(Comparator.naturalOrder())
                        .orElseThrow();
        String count = voice.say("undelivered.count", lost.size());
        String subject = voice.say("undelivered.subject", count, first.machine(), route);
        String why = PlainText.harmless(reason, LONGEST_REASON);
        String text = text(lost, count, why, id);
        Notice notice =
                new Notice(
                        id,
                        first.machine(),
                        Message.Kind.NOTICE,
                        EVENT,
                        route,
                        grade,
                        atMicros,
                        why,
                        lost.stream().map(owed -> owed.message().id()).toList());
        return notice.said(voice, subject, text);
    }

    private String text(List<Owed> lost, String count, String reason, String id) {
        Message first = lost.get(0).message();
        String route = lost.get(0).route();
        Lines lines = new Lines();
        lines.add(voice.say("undelivered.given-up", count, first.machine(), route));
        lines.add(voice.say("undelivered.where", voice.site(), first.machine()));
        lines.add(voice.say("undelivered.why", reason));
        lines.add(voice.say("undelivered.untold"));
        lost.stream()
                .limit(MOST_SHOWN)
                .map(Owed::message)
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
