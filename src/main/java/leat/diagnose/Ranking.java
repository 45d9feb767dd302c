package leat.diagnose;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What the evidence says of every row of the table, and from that how likely each cause is.
 * Immutable.
 */
final class Ranking {

    /** A deviation that nobody explains counts up to so much. */
    private static final double MOST_ODD = 20;

    /** As much as so many features, all unseen, speak for knowing nothing; own choice. */
    private static final double UNSEEN = 0.25;

    /** What says less, logarithm of odds, is no reason worth a word; own choice. */
    private static final double TELLING = 0.3;

    private final List<Evidence> evidence;
    private final Weights weights;
    private final double temper;
    private final double[][] says;
    private final double[] rows;
    private final Map<Cause, Double> causes = new EnumMap<>(Cause.class);

    /**
     * @param known how many sound starts of the machine the evidence is compared with
     */
    Ranking(List<Evidence> evidence, int known, Weights weights, Priors priors) {
        temper = weights.temper(known);
        this.evidence = List.copyOf(evidence);
        this.weights = weights;
        int count = weights.rows().size();
        says = new double[count][evidence.size()];
        double[] scores = new double[count];
        List<double[]> ramps = evidence.stream().map(Ramps::of).toList();
        for (int row = 0; row < count; row++) {
            scores[row] = score(row, ramps, priors);
        }
        int best = 0;
        for (int row = 1; row < count; row++) {
            best = scores[row] > scores[best] ? row : best;
        }
        double odd = Math.exp(weights.oddness() + weights.perOddity() * oddity(best));
        double sum = odd;
        for (double score : scores) {
            sum += Math.exp(score - scores[best]);
        }
        double seen = evidence.size() / (evidence.size() + UNSEEN);
        rows = new double[count];
        double told = 0;
        for (int row = 0; row < count; row++) {
            rows[row] = seen * Math.exp(scores[row] - scores[best]) / sum;
            told += rows[row];
            causes.merge(weights.rows().get(row).row().cause(), rows[row], Double::sum);
        }
        causes.put(Cause.UNKNOWN, Math.max(0, 1 - told));
    }

    private double score(int row, List<double[]> ramps, Priors priors) {
        Weights.OfRow of = weights.rows().get(row);
        double sum = of.prior();
        for (int i = 0; i < evidence.size(); i++) {
            double[] pieces = of.pieces()[evidence.get(i).feature().ordinal()];
            double one = 0;
            for (int piece = 0; piece < Ramps.COUNT; piece++) {
                one += pieces[piece] * ramps.get(i)[piece];
            }
            says[row][i] = temper * one;
            sum += one;
        }
        return temper * sum + Math.log(priors.factor(of.row().cause()));
    }

    /** What differs although that row does not move it. */
    private double oddity(int row) {
        double sum = 0;
        for (Evidence one : evidence) {
            if (!weights.rows().get(row).row().explains(one)) {
                sum += Math.log1p(Math.min(MOST_ODD, Math.abs(one.excess())));
            }
        }
        return sum;
    }

    /** Sums to 1. */
    Map<Cause, Double> causes() {
        return Collections.unmodifiableMap(causes);
    }

    /** Whether pressures can tell of it. */
    boolean knows(Cause cause) {
        return row(cause) >= 0;
    }

    /** What speaks for a cause beside the others, the most telling first. */
    List<Reason> pro(Cause cause) {
        List<Reason> reasons = new ArrayList<>();
        for (int i = 0; i < evidence.size(); i++) {
            double beside = beside(cause, i);
            if (beside > TELLING) {
                reasons.add(reason(i, beside, false));
            }
        }
        return first(reasons);
    }

    /** What speaks against it and not for it: what it does not do, or mostly does further. */
    List<Reason> contra(Cause cause) {
        List<Reason> reasons = new ArrayList<>();
        int row = row(cause);
        for (int i = 0; i < evidence.size(); i++) {
            // no more is missed than would show
            double usually = temper * shown(row, i) * evidence.get(i).sharpness();
            double missed = usually > TELLING ? says[row][i] - usually : 0;
            double beside = beside(cause, i);
            boolean isOfCause = weights.rows().get(row).row().explains(evidence.get(i));
            double worst = isOfCause ? missed : Math.min(beside, missed);
            if (worst < -TELLING && beside <= TELLING) {
                reasons.add(reason(i, worst, isOfCause));
            }
        }
        return first(reasons);
    }

    private double shown(int row, int i) {
        return weights.rows().get(row).shown()[evidence.get(i).feature().ordinal()];
    }

    private Reason reason(int i, double weight, boolean fallsShort) {
        Evidence one = evidence.get(i);
        return new Reason(one.feature(), one.value(), one.usualForPeople(), weight, fallsShort);
    }

    private static List<Reason> first(List<Reason> reasons) {
        reasons.sort((a, b) -> Double.compare(Math.abs(b.weight()), Math.abs(a.weight())));
        return reasons.subList(0, Math.min(Suspect.MOST_REASONS, reasons.size()));
    }

    /** The likeliest row of a cause. */
    private int row(Cause cause) {
        int best = -1;
        for (int row = 0; row < rows.length; row++) {
            boolean isOf = weights.rows().get(row).row().cause() == cause;
            if (isOf && (best < 0 || rows[row] > rows[best])) {
                best = row;
            }
        }
        return best;
    }

    /**
     * What a piece of evidence says of a cause beside what it says of the others, as they weigh.
     */
    private double beside(Cause cause, int i) {
        double others = 0;
        double weight = 0;
        for (int row = 0; row < rows.length; row++) {
            if (weights.rows().get(row).row().cause() != cause) {
                double share = rows[row] + 1e-9;
                others += share * says[row][i];
                weight += share;
            }
        }
        return says[row(cause)][i] - others / weight;
    }
}
