package leat.words;

import static java.util.Objects.requireNonNull;

import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reason;

/** Causes, and what speaks for them, in words. Immutable. */
public final class CauseWords {

    private final Phrases phrases;
    private final Numbers numbers;

    public CauseWords(Phrases phrases, Numbers numbers) {
        this.phrases = requireNonNull(phrases, "phrases");
        this.numbers = requireNonNull(numbers, "numbers");
    }

    public String cause(Cause cause) {
        return cause.key().replace('-', ' ');
    }

    public String likely(Diagnosis diagnosis) {
        return cause(diagnosis.first().cause())
                + " likely, "
                + numbers.number(100 * diagnosis.first().weight(), 0)
                + " %";
    }

    public String reason(Reason reason) {
        return phrases.say("measurand." + reason.feature().measurand().key())
                + " "
                + numbers.number(reason.value(), 1);
    }

    public String check(Check check) {
        return check.key() + ".";
    }

    public String answer(Answer answer) {
        return answer.key();
    }

    public String basis(Diagnosis diagnosis) {
        return "from " + diagnosis.observations() + " starts";
    }
}
