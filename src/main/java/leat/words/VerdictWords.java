package leat.words;

import java.util.ArrayList;
import java.util.List;
import leat.rule.Remark;
import leat.rule.StartupVerdict;

/** How a start was judged, in one line. Immutable. */
final class VerdictWords {

    private final Phrases phrases;
    private final RemarkWords remarks;

    VerdictWords(Phrases phrases, RemarkWords remarks) {
        this.phrases = phrases;
        this.remarks = remarks;
    }

    /** The figure and the limit, or why it was not judged; without the judgement itself. */
    String note(StartupVerdict verdict) {
        List<String> parts = new ArrayList<>();
        List<String> unusual = new ArrayList<>();
        boolean judged = verdict.outcome() != StartupVerdict.Outcome.NOT_JUDGED;
        for (Remark remark : verdict.remarks()) {
            if (remark.kind() == Remark.Kind.UNUSUAL) {
                unusual.add(remarks.say(remark));
            } else if (remark.kind() == Remark.Kind.OWN_RISE && !parts.isEmpty()) {
                int last = parts.size() - 1;
                parts.set(last, parts.get(last) + " (" + said(remark, judged) + ")");
            } else {
                parts.add(said(remark, judged));
            }
        }
        if (!unusual.isEmpty()) {
            parts.add(phrases.say("verdict.unusual", String.join(", ", unusual)));
        }
        String note = String.join("; ", parts);
        return judged ? note : phrases.say("verdict.not-judged", note);
    }

    /** Some are said otherwise of a start that is judged. */
    private String said(Remark remark, boolean judged) {
        String own = "verdict." + remark.kind().key();
        return judged && phrases.has(own) ? remarks.say(own, remark) : remarks.say(remark);
    }
}
