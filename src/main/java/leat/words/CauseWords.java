package leat.words;

import static java.util.Objects.requireNonNull;

import java.util.List;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reason;

/** STAND-IN until the real one is merged. */
public final class CauseWords {

    private final Numbers numbers;

    public CauseWords(Phrases phrases, Numbers numbers) {
        this.numbers = requireNonNull(numbers, "numbers");
    }

    public String cause(Cause cause) {
        return cause.key().replace('-', ' ');
    }

    public String likely(Diagnosis why) {
        return cause(why.first().cause())
                + " likely, "
                + numbers.number(100 * why.first().weight(), 0)
                + " %";
    }

    public String reason(Reason reason) {
        return reason.feature().key() + " " + numbers.number(reason.value(), 1);
    }

    public String check(Check check) {
        return "Do " + check.key() + ".";
    }

    public String asks(Check check) {
        return check.key() + "?";
    }

    public String answer(Answer answer) {
        return answer.key();
    }

    public String meaning(Answer answer) {
        return "means " + answer.key();
    }

    public List<String> steps(Cause cause) {
        return List.of("Step one.", "Step two.");
    }

    public String basis(Diagnosis why) {
        return "From " + why.observations() + " starts, compared with its own " + why.known();
    }
}
