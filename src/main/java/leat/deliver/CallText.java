package leat.deliver;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.rule.Finding;
import leat.words.FindingWords;
import leat.words.Lines;

/** The text of a call: somebody has to do something. Immutable. */
final class CallText {

    private final Voice voice;
    private final People people;

    CallText(Voice voice) {
        this.voice = voice;
        this.people = new People(voice);
    }

    /** About a change. */
    String of(Changed changed) {
        AlarmChange change = changed.change();
        return text(changed.machine(), change.finding(), occasion(change), changed.id());
    }

    /** About an alarm that nobody has acknowledged. */
    String of(Again again) {
        String since = voice.numbers().time(again.since().atMicros());
        return text(
                again.machine(),
                again.latest().finding(),
                Optional.of(voice.say("call.unanswered", since)),
                again.id());
    }

    private String text(String machine, Finding finding, Optional<String> occasion, String id) {
        FindingWords words = voice.findings();
        Lines lines = new Lines();
        lines.add(
                voice.say(
                        "call.grade",
                        words.grade(finding.grade()),
                        words.meaning(finding.grade())));
        lines.add(voice.say("where", voice.site(), machine, words.what(finding)));
        lines.add(voice.say("call.measured", words.judged(finding), words.measured(finding)));
        lines.add(voice.say("call.limit", words.limit(finding)));
        lines.add(voice.say("call.since", voice.numbers().time(finding.sinceMicros())));
        words.gauges(finding).ifPresent(lines::add);
        if (!finding.remarks().isEmpty()) {
            lines.add(voice.say("call.also", words.remarks(finding)));
        }
        occasion.ifPresent(lines::add);
        lines.add(voice.say("check-first"));
        List<String> checks = words.checks(finding);
        for (int i = 0; i < checks.size(); i++) {
            lines.add((i + 1) + ". " + checks.get(i));
        }
        lines.add(voice.say("caution", words.caution()));
        return lines.add(voice.say("message", id)).text();
    }

    /** Why somebody is called now for what may have been there for a while. */
    private Optional<String> occasion(AlarmChange change) {
        int count = change.notes().count();
        return switch (change.event()) {
            case CHATTERING -> Optional.of(voice.say("call.chattering", count));
            case UNSHELVED, RELEASED, RESTORED ->
                    Optional.of(voice.say("call." + change.event().key(), people.ended(change)));
            case RAISED -> count > 1 ? Optional.of(voice.say("count", count)) : Optional.empty();
            case WORSENED,
                    EASED,
                    RETURNED,
                    ACKNOWLEDGED,
                    LATCHED,
                    RESET,
                    SHELVED,
                    SUPPRESSED,
                    REMOVED,
                    REPEATED,
                    SETTLED ->
                    Optional.empty();
        };
    }
}
