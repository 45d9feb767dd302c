package leat.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.rule.Grade;

/**
 * One trouble of one machine, played and judged.
 *
 * @param machine whose
 * @param trouble what
 * @param size how bad it was made
 * @param plain how plainly the gauges showed it
 * @param verdict how leat did
 * @param calls what leat raised, as {@code rule GRADE}
 * @param shown what the gauges showed without noise
 */
record DrawnCase(
        DrawnMachine machine,
        Trouble trouble,
        double size,
        Plain plain,
        Verdict verdict,
        List<String> calls,
        String shown) {

    /** How leat did. */
    enum Verdict {
        /** It raised something that a person with these gauges would accept. */
        SAID,
        SILENT,
        /** It raised only something else, or told to stop the booster without need. */
        WRONG,
        /** What would say it stood already: nothing can be told. */
        STOOD
    }

    /** What came or got worse. */
    static boolean isCall(AlarmChange change) {
        return change.event() == AlarmEvent.RAISED || change.event() == AlarmEvent.WORSENED;
    }

    static String words(AlarmChange change) {
        return change.finding().rule().key() + " " + change.finding().grade();
    }

    /**
     * Judges what was said.
     *
     * @param critical whether the booster should be stopped
     * @param stood rules that stood when the trouble came
     */
    static Verdict verdict(
            Trouble trouble, List<AlarmChange> changes, boolean critical, Set<String> stood) {
        List<AlarmChange> calls = changes.stream().filter(DrawnCase::isCall).toList();
        boolean alarmist =
                !critical && calls.stream().anyMatch(c -> c.finding().grade() == Grade.CRITICAL);
        List<String> rules = new ArrayList<>();
        calls.forEach(call -> rules.add(call.finding().rule().key()));
        if (alarmist) {
            return Verdict.WRONG;
        }
        if (rules.stream().anyMatch(trouble.rules()::contains)) {
            return Verdict.SAID;
        }
        if (stood.stream().anyMatch(trouble.rules()::contains)) {
            return Verdict.STOOD;
        }
        return rules.isEmpty() ? Verdict.SILENT : Verdict.WRONG;
    }
}
