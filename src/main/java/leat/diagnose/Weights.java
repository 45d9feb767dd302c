package leat.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.ResourceBundle;
import java.util.function.Function;
import java.util.function.Predicate;

/**
 * How much each feature says for or against each row of {@link CauseTable}: fitted, kept in {@code
 * weights.properties}, natural logarithms of odds beside a sound machine. Immutable.
 */
final class Weights {

    /**
     * What one row is given.
     *
     * @param row the row
     * @param prior before anything is seen
     * @param pieces by feature, then by piece as {@link Ramps} orders them
     * @param shown by feature, what it says on average where the cause is there: what is missed
     *     when it says less
     */
    record OfRow(CauseTable.Row row, double prior, double[][] pieces, double[] shown) {}

    private static final ResourceBundle FITTED =
            ResourceBundle.getBundle("leat.diagnose.weights", Locale.ROOT);

    private static final Weights PUBLISHED = of(FITTED::getString, FITTED::containsKey);

    private final List<OfRow> rows;
    private final double temper;
    private final double temperOfStranger;
    private final double oddness;
    private final double perOddity;

    /**
     * @param temper by which all is multiplied so that weights are as often right as they say
     * @param temperOfStranger likewise for a machine of which no sound start is known
     * @param oddness logarithm of the odds that something else is wrong, where nothing is odd
     * @param perOddity by how much it grows with each difference that the likeliest cause does not
     *     explain
     */
    Weights(
            List<OfRow> rows,
            double temper,
            double temperOfStranger,
            double oddness,
            double perOddity) {
        this.rows = List.copyOf(rows);
        this.temper = temper;
        this.temperOfStranger = temperOfStranger;
        this.oddness = oddness;
        this.perOddity = perOddity;
    }

    /** Those that leat is delivered with. */
    static Weights published() {
        return PUBLISHED;
    }

    static Weights of(Function<String, String> texts, Predicate<String> knows) {
        List<OfRow> rows = new ArrayList<>();
        for (CauseTable.Row row : CauseTable.rows()) {
            double[][] pieces = new double[Feature.values().length][Ramps.COUNT];
            double[] shown = new double[Feature.values().length];
            for (Feature feature : Feature.values()) {
                String key = row.key() + "/" + feature.key();
                if (knows.test(key)) {
                    String[] numbers = texts.apply(key).strip().split("[ |]+");
                    for (int i = 0; i < Ramps.COUNT; i++) {
                        pieces[feature.ordinal()][i] = Double.parseDouble(numbers[i]);
                    }
                    shown[feature.ordinal()] = Double.parseDouble(numbers[Ramps.COUNT]);
                }
            }
            String prior = row.key() + "/prior";
            rows.add(
                    new OfRow(
                            row,
                            knows.test(prior) ? Double.parseDouble(texts.apply(prior)) : 0,
                            pieces,
                            shown));
        }
        return new Weights(
                rows,
                Double.parseDouble(texts.apply("temper")),
                Double.parseDouble(texts.apply("temper-of-stranger")),
                Double.parseDouble(texts.apply("oddness")),
                Double.parseDouble(texts.apply("per-oddity")));
    }

    List<OfRow> rows() {
        return rows;
    }

    /**
     * @param known how many sound starts of the machine are known
     */
    double temper(int known) {
        return temper + (temperOfStranger - temper) / (1 + known);
    }

    double oddness() {
        return oddness;
    }

    double perOddity() {
        return perOddity;
    }

    Weights tempered(double other, double ofStranger) {
        return new Weights(rows, other, ofStranger, oddness, perOddity);
    }
}
