package leat.deliver;

import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.diagnose.Diagnosis;
import leat.rule.Finding;
import leat.words.FindingWords;

/** The one line by which a message about an alarm is known. Immutable. */
final class Subject {

    private final Voice voice;
    private final CauseText causes;

    Subject(Voice voice) {
        this.voice = voice;
        this.causes = new CauseText(voice);
    }

    String of(Changed changed) {
        AlarmChange change = changed.change();
        return say("subject." + key(change), changed.machine(), change.finding(), changed.why());
    }

    String of(LaterCall call) {
        String key = call instanceof Alone ? "still" : call.event();
        return say("subject." + key, call.machine(), call.latest().finding(), call.why());
    }

    private String say(String key, String machine, Finding finding, Optional<Diagnosis> why) {
        FindingWords words = voice.findings();
        return voice.say(
                key,
                words.grade(finding.grade()),
                machine,
                words.what(finding),
                causes.what(finding, why));
    }

    private static String key(AlarmChange change) {
        return switch (change.event()) {
            case UNSHELVED, RELEASED, RESTORED ->
                    change.isCall() ? "still" : "hold-over." + after(change.notes().own());
            case RAISED,
                    WORSENED,
                    EASED,
                    RETURNED,
                    ACKNOWLEDGED,
                    LATCHED,
                    RESET,
                    CHATTERING,
                    SHELVED,
                    SUPPRESSED,
                    REMOVED,
                    REPEATED,
                    SETTLED ->
                    change.event().key();
        };
    }

    private static String after(AlarmState own) {
        return switch (own) {
            case NORMAL -> "normal";
            case RETURNED_UNACKNOWLEDGED -> "returned";
            case LATCHED_UNACKNOWLEDGED, LATCHED_ACKNOWLEDGED -> "latched";
            case UNACKNOWLEDGED, ACKNOWLEDGED, SHELVED, SUPPRESSED, OUT_OF_SERVICE -> "active";
        };
    }
}
