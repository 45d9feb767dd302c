package leat.diagnose;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * What people say of a machine, as far as it counts at some time. Immutable.
 *
 * @param priors what their work makes likelier or unlikelier
 * @param answers what checks have shown them since, oldest first
 */
public record Testimony(Priors priors, List<Answer> answers) {

    /** Nobody has said anything. */
    public static final Testimony NONE = new Testimony(Priors.NONE, List.of());

    public Testimony {
        requireNonNull(priors, "priors");
        answers = List.copyOf(answers);
    }

    /** The same of a machine whose pressures a rule has called for. */
    public Testimony called() {
        return new Testimony(priors.called(), answers);
    }

    /** The causes of what was seen, by this too. */
    public Diagnosis why(List<Observation> seen, Reference usual) {
        return Diagnostician.why(seen, usual, priors, answers);
    }
}
