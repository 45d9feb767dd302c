package leat.page;

import java.util.Optional;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.live.AlarmNow;
import leat.report.Shown;
import leat.rule.Finding;
import leat.rule.Grade;

/** What to look at first because of an alarm, as its message says it too. */
final class FirstCheck {

    /** A cause below this weight is none that a person should be sent for; leat's own choice. */
    private static final double CLEAR = 0.4;

    private FirstCheck() {}

    /**
     * The check that decides between the causes, or what is common practice for such a finding.
     * What is CRITICAL begins with what keeps the machine whole.
     */
    static String of(AlarmNow alarm, Shown shown) {
        Finding finding = alarm.alarm().change().finding();
        String usual = shown.findings().checks(finding).get(0);
        Optional<Check> decides =
                alarm.why().filter(why -> why.first().cause().isFault()).flatMap(Diagnosis::check);
        if (decides.isEmpty()) {
            return usual;
        }
        String check = shown.causes().check(decides.get());
        return finding.grade() == Grade.CRITICAL ? usual + " " + check : check;
    }

    /** The likeliest cause in a few words; empty where none is likely enough. */
    static Optional<String> cause(AlarmNow alarm, Shown shown) {
        return alarm.why()
                .filter(why -> why.first().cause().isFault() && why.first().weight() >= CLEAR)
                .map(shown.causes()::likely);
    }
}
