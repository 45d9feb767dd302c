package leat.diagnose;

import java.util.List;
import java.util.Optional;

/**
 * Why the machine is as it is: every cause that is worth a word, the likeliest first. Immutable.
 *
 * @param suspects never empty; their weights sum to 1 together with those that are left out of a
 *     shortened list
 * @param observations how many starts with their runs and stops it rests on
 * @param known how many sound starts of the machine it is compared with; 0 where it is compared
 *     with machines in general
 * @param answers what people have answered to checks and what it took in
 */
public record Diagnosis(List<Suspect> suspects, int observations, int known, List<Answer> answers) {

    public Diagnosis {
        suspects = List.copyOf(suspects);
        answers = List.copyOf(answers);
        if (suspects.isEmpty()) {
            throw new IllegalArgumentException("a diagnosis without a cause");
        }
    }

    /** The likeliest. */
    public Suspect first() {
        return suspects.get(0);
    }

    /** The same with so many suspects at most, the likeliest. */
    public Diagnosis shortened(int most) {
        return suspects.size() <= most
                ? this
                : new Diagnosis(suspects.subList(0, most), observations, known, answers);
    }

    /** The check to make first; empty where nothing is wrong or no check tells. */
    public Optional<Check> check() {
        return first().check();
    }
}
