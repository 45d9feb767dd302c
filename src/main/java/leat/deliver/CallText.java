package leat.deliver;

import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.rule.Finding;
import leat.words.FindingWords;
import leat.words.Lines;

/** The text of a call: somebody has to do something. Immutable. */
final class CallText {

    private final Voice voice;
    private final People people;
    private final CauseText causes;
    private final ShortLine first;
    private final Ending ending;

    CallText(Voice voice) {
        this.voice = voice;
        this.people = new People(voice);
        this.causes = new CauseText(voice);
        this.first = new ShortLine(voice);
        this.ending = new Ending(voice);
    }

    /** About a change. */
    String of(Changed changed) {
        return ending.call(
                lines(changed), changed.change().finding().rule(), changed.number(), changed.id());
    }

    /** Likewise without its end, for a message that tells of more. */
    Lines lines(Changed changed) {
        AlarmChange change = changed.change();
        return lines(
                changed.machine(),
                change.finding(),
                changed.why(),
                changed.number(),
                change.atMicros(),
                occasion(change));
    }

    /** About an alarm that stands. */
    String of(LaterCall call) {
        long told = call.latest().atMicros();
        String occasion =
                call instanceof Again again
                        ? voice.say(
                                "call.unanswered", voice.numbers().time(again.since().atMicros()))
                        : voice.say("call.alone");
        Finding finding = call.latest().finding();
        Lines lines =
                lines(
                        call.machine(),
                        finding,
                        call.why(),
                        call.number(),
                        told,
                        Optional.of(occasion));
        return ending.call(lines, finding.rule(), call.number(), call.id());
    }

    private Lines lines(
            String machine,
            Finding finding,
            Optional<Diagnosis> why,
            OptionalLong number,
            long told,
            Optional<String> occasion) {
        FindingWords words = voice.findings();
        Lines lines = new Lines();
        lines.asIs(first.of(machine, finding, why, number, told));
        lines.add(voice.say("call.where", voice.site(), machine, words.meaning(finding.grade())));
        why.ifPresent(known -> causes.tell(known, lines));
        lines.add(voice.say("call.measured", words.judged(finding), words.measured(finding)));
        lines.add(voice.say("call.limit", words.limit(finding)));
        lines.add(voice.say("call.since", voice.numbers().time(finding.sinceMicros())));
        words.gauges(finding).ifPresent(lines::add);
        if (!finding.remarks().isEmpty()) {
            lines.add(voice.say("call.also", words.remarks(finding)));
        }
        occasion.ifPresent(lines::add);
        causes.listChecks(finding, why, lines);
        causes.answer(machine, why).ifPresent(lines::add);
        return lines;
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
