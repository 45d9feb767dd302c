package leat.diagnose;

import java.util.Collection;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Which check decides, and what an answer does to the weights of causes. Functions: the same
 * arguments always give the same result.
 */
public final class Checks {

    /**
     * A check that tells less than this about a cause and all its rivals, each side as likely as
     * the other, is not worth the way to the machine. Bits; own figure.
     */
    private static final double LEAST_BITS = 0.1;

    /**
     * A check that tells less than this share of what the most telling one tells is not the better
     * for being cheap: it would only be the first of several. Own figure.
     */
    private static final double TELLING_SHARE = 0.65;

    /** From this weight on a starved booster is likely enough not to be run on. Own figure. */
    private static final double MAY_RUN_DRY = 0.1;

    private Checks() {}

    /**
     * What is so of the causes after people have looked.
     *
     * @param weights of causes before; 0 or more
     * @param answers oldest first; of several to one check the newest holds, otherwise their order
     *     says nothing
     * @return weights that sum to 1, of the same causes
     */
    public static Map<Cause, Double> answered(
            Map<Cause, Double> weights, Collection<Answer> answers) {
        Map<Cause, Double> after = weights;
        for (Answer answer : standing(answers).values()) {
            after = Bayes.posterior(after, cause -> AnswerTable.of(answer, cause));
        }
        return after;
    }

    /** The newest answer to each check, in the order of checks. */
    private static Map<Check, Answer> standing(Collection<Answer> answers) {
        EnumMap<Check, Answer> standing = new EnumMap<>(Check.class);
        answers.forEach(answer -> standing.put(Check.of(answer), answer));
        return standing;
    }

    /**
     * The check to make next: what it is expected to tell for its price, of all that tell enough.
     *
     * <p>It is asked whether the cause is it or one of its rivals, put as if the one were as likely
     * as all the others together, and these among themselves as they are weighed. So the gains of a
     * cause of 3 % and of one of 97 % compare, and one that is nearly certain still gets the check
     * that confirms it before a pump is taken off.
     *
     * @param weights of causes, after all that was answered
     * @param about the cause that is to be told from the others. {@link Cause#UNKNOWN} asks for
     *     what tells most among the known ones
     * @param answered what was answered already; those checks are not asked for again
     * @return empty for {@link Cause#HEALTHY}, and where no check that is left tells enough
     */
    public static Optional<Check> best(
            Map<Cause, Double> weights,
            Cause about,
            Collection<Answer> answered,
            InletGauge inletGauge) {
        if (about == Cause.HEALTHY) {
            return Optional.empty();
        }
        Set<Check> asked = EnumSet.noneOf(Check.class);
        answered.forEach(answer -> asked.add(Check.of(answer)));
        boolean starved =
                about == Cause.SUPPLY_SHUT
                        || weights.getOrDefault(Cause.SUPPLY_SHUT, 0.0) >= MAY_RUN_DRY;
        EnumMap<Check, Double> gains = new EnumMap<>(Check.class);
        for (Check check : Check.values()) {
            if (!asked.contains(check)
                    && inletGauge.allows(check)
                    && (!isOfLoop(about) || check.isAtLoop())
                    && !(starved && check.runsBooster())) {
                gains.put(check, bits(check, weights, about));
            }
        }
        double most = gains.values().stream().mapToDouble(Double::doubleValue).max().orElse(0);
        double enough = Math.max(LEAST_BITS, TELLING_SHARE * most);
        Check best = null;
        for (Map.Entry<Check, Double> one : gains.entrySet()) {
            if (one.getValue() >= enough
                    && (best == null || rate(one.getKey(), gains) > rate(best, gains))) {
                best = one.getKey();
            }
        }
        return Optional.ofNullable(best);
    }

    /** What is wrong between gauge and computer is looked for there, and not at the water line. */
    private static boolean isOfLoop(Cause cause) {
        return cause == Cause.OPEN_LOOP || cause == Cause.LOOSE_LOOP;
    }

    private static double rate(Check check, Map<Check, Double> gains) {
        return gains.get(check) / check.price();
    }

    /**
     * What a check is expected to tell about whether this is the cause or one of its rivals.
     *
     * @return bits, 0 to 1
     */
    static double bits(Check check, Map<Cause, Double> weights, Cause about) {
        EnumMap<Cause, Double> rivals = new EnumMap<>(Cause.class);
        rivals.putAll(weights);
        rivals.remove(about);
        rivals.remove(Cause.UNKNOWN);
        if (about == Cause.UNKNOWN) {
            return InformationGain.of(rivals, cause -> AnswerTable.first(check, cause));
        }
        double sum = 0;
        double first = 0;
        for (Map.Entry<Cause, Double> rival : rivals.entrySet()) {
            sum += rival.getValue();
            first += rival.getValue() * AnswerTable.first(check, rival.getKey());
        }
        double other = sum > 0 ? first / sum : AnswerTable.first(check, Cause.HEALTHY);
        return InformationGain.between(AnswerTable.first(check, about), other);
    }
}
