package leat.diagnose;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;

/**
 * What a check is worth where two gauges cannot tell: for each group of causes that show alike, how
 * often the first one is right before, after the check that is offered, and after the next ones.
 * The answers are drawn by the same table that weighs them, so this measures what the checks can
 * decide if the table is true, not whether it is.
 *
 * <p>{@code java -cp target/test-classes:target/leat.jar leat.diagnose.CheckTable [times]}; a
 * second argument makes people err so many times as often as the table has it, which the weighing
 * does not know.
 */
public final class CheckTable {

    static final int MOST_CHECKS = 3;

    private static final long SEED = 44;

    private CheckTable() {}

    /**
     * @param right share right before, after one check, after two, after three; a check that is not
     *     offered any more leaves it as it was
     * @param first how often each check was the first one offered
     * @param minutes of the checks that were made, on the average
     * @param checks how many were made, on the average
     */
    record Result(
            UnseparableGroup group,
            List<Double> right,
            Map<Check, Integer> first,
            double minutes,
            double checks) {

        /**
         * With how many checks the first cause is right in more than so much; empty: not at all.
         */
        Optional<Integer> enough(double share) {
            for (int i = 1; i < right.size(); i++) {
                if (right.get(i) > share) {
                    return Optional.of(i);
                }
            }
            return Optional.empty();
        }

        Check offered() {
            return first.entrySet().stream()
                    .max(Map.Entry.comparingByValue())
                    .orElseThrow()
                    .getKey();
        }
    }

    public static void main(String[] arguments) {
        int times = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 20_000;
        double errs = arguments.length > 1 ? Double.parseDouble(arguments[1]) : 1;
        System.out.printf(
                Locale.ROOT,
                "%d times each; people err %.1f times as often as the table has it%n%n",
                times,
                errs);
        System.out.println(
                "group                                   before   after 1      2      3 check"
                        + "  minutes  first check");
        for (UnseparableGroup group : UnseparableGroup.ALL) {
            Result result = of(group, times, errs);
            System.out.printf(
                    Locale.ROOT,
                    "%-38s  %5.1f %%  %5.1f  %5.1f  %5.1f %%     %5.0f    %s%n",
                    group.about(),
                    100 * result.right().get(0),
                    100 * result.right().get(1),
                    100 * result.right().get(2),
                    100 * result.right().get(3),
                    result.minutes(),
                    offers(result, times));
        }
    }

    private static String offers(Result result, int times) {
        StringBuilder offers = new StringBuilder();
        result.first()
                .forEach(
                        (check, count) ->
                                offers.append(
                                        String.format(
                                                Locale.ROOT,
                                                "%s %.0f %%  ",
                                                check.key(),
                                                100.0 * count / times)));
        return offers.toString();
    }

    static Result of(UnseparableGroup group, int times, double errs) {
        RandomGenerator random = new SplittableRandom(SEED);
        double[] right = new double[MOST_CHECKS + 1];
        Map<Check, Integer> first = new EnumMap<>(Check.class);
        double minutes = 0;
        double checks = 0;
        for (int i = 0; i < times; i++) {
            Map<Cause, Double> seen = group.drawn(random);
            Cause truth = group.truth(seen, random);
            List<Answer> answers = new ArrayList<>();
            Map<Cause, Double> weights = seen;
            for (int made = 0; made <= MOST_CHECKS; made++) {
                right[made] += group.first(weights) == truth ? 1 : 0;
                Optional<Check> next =
                        Checks.best(weights, about(group, weights), answers, group.inletGauge());
                if (made < MOST_CHECKS && next.isPresent()) {
                    if (made == 0) {
                        first.merge(next.get(), 1, Integer::sum);
                    }
                    minutes += next.get().minutes();
                    checks++;
                    answers.add(answer(next.get(), truth, errs, random));
                    weights = Checks.answered(seen, answers);
                }
            }
        }
        List<Double> shares = new ArrayList<>();
        for (double count : right) {
            shares.add(count / times);
        }
        return new Result(group, shares, first, minutes / times, checks / times);
    }

    /** Of a sound machine nobody asks; then of what it could be instead. */
    private static Cause about(UnseparableGroup group, Map<Cause, Double> weights) {
        Cause first = group.first(weights);
        return first != Cause.HEALTHY
                ? first
                : group.causes().stream()
                        .filter(cause -> cause != Cause.HEALTHY)
                        .max((one, other) -> Double.compare(weights.get(one), weights.get(other)))
                        .orElseThrow();
    }

    private static Answer answer(Check check, Cause truth, double errs, RandomGenerator random) {
        double first = AnswerTable.first(check, truth);
        double seldom = Math.min(0.5, Math.min(first, 1 - first) * errs);
        double drawnFrom = first < 0.5 ? seldom : 1 - seldom;
        return check.answers().get(random.nextDouble() < drawnFrom ? 0 : 1);
    }
}
