package leat.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * How honest given probabilities are: of what was given 80 to 90 %, about so much should be right.
 *
 * <p>The Brier score is the mean squared distance of what was given from what came (0 or 1). It is
 * {@code reliability - resolution + uncertainty + within} (Murphy 1973, Journal of Applied
 * Meteorology 12, 595-600; the two parts within bands, here as one number, Stephenson, Coelho and
 * Jolliffe 2008, Weather and Forecasting 23, 752-757; both from memory).
 *
 * @param bands those in which something was given, lowest first
 * @param count how many were given
 * @param brier 0 (always certain and right) to 1
 * @param reliability how far the bands are off, squared; 0 is best
 * @param resolution how far the bands are from what is right in all; more is better
 * @param uncertainty what the Brier score would be of one who only knew how much is right in all
 * @param within what is left because a band holds more than one probability
 */
public record Reliability(
        List<Band> bands,
        int count,
        double brier,
        double reliability,
        double resolution,
        double uncertainty,
        double within) {

    /** What was given, 0 to 1, and whether it came. */
    public record Given(double probability, boolean right) {

        public Given {
            if (!(probability >= 0 && probability <= 1)) {
                throw new IllegalArgumentException("probability " + probability);
            }
        }
    }

    /**
     * What was given at least {@code from} and less than {@code to}; the last band holds 1 too.
     *
     * @param given the mean of it
     * @param right share that came
     */
    public record Band(double from, double to, int count, double given, double right) {

        /**
         * Half the width of the interval of about 95 % around {@link #right} that chance alone
         * leaves, if what was given is true; normal approximation.
         */
        public double chance() {
            return 1.96 * Math.sqrt(given * (1 - given) / count);
        }
    }

    public Reliability {
        bands = List.copyOf(bands);
    }

    /** Ten bands of a tenth each. */
    public static Reliability of(List<Given> all) {
        return of(all, 10);
    }

    /**
     * @param all at least one
     * @param number of bands, equally wide
     */
    public static Reliability of(List<Given> all, int number) {
        List<List<Given>> sorted = new ArrayList<>();
        for (int i = 0; i < number; i++) {
            sorted.add(new ArrayList<>());
        }
        for (Given one : all) {
            sorted.get(Math.min(number - 1, (int) (one.probability() * number))).add(one);
        }
        double right = right(all);
        List<Band> bands = new ArrayList<>();
        double reliability = 0;
        double resolution = 0;
        for (int i = 0; i < number; i++) {
            List<Given> in = sorted.get(i);
            if (!in.isEmpty()) {
                Band band =
                        new Band(
                                (double) i / number,
                                (i + 1.0) / number,
                                in.size(),
                                in.stream().mapToDouble(Given::probability).average().orElseThrow(),
                                right(in));
                bands.add(band);
                double share = (double) in.size() / all.size();
                reliability += share * square(band.given() - band.right());
                resolution += share * square(band.right() - right);
            }
        }
        double brier =
                all.stream()
                        .mapToDouble(one -> square(one.probability() - (one.right() ? 1 : 0)))
                        .average()
                        .orElseThrow();
        double uncertainty = right * (1 - right);
        return new Reliability(
                bands,
                all.size(),
                brier,
                reliability,
                resolution,
                uncertainty,
                brier - (reliability - resolution + uncertainty));
    }

    private static double right(List<Given> of) {
        return of.stream().mapToDouble(one -> one.right() ? 1 : 0).average().orElseThrow();
    }

    private static double square(double number) {
        return number * number;
    }

    /** Expected calibration error: by how much the bands are off, by how much is in them. */
    public double calibrationError() {
        return bands.stream()
                        .mapToDouble(band -> band.count() * Math.abs(band.given() - band.right()))
                        .sum()
                / count;
    }

    /** By how much the worst band is off that holds at least so many. */
    public double worst(int atLeast) {
        return bands.stream()
                .filter(band -> band.count() >= atLeast)
                .mapToDouble(band -> Math.abs(band.given() - band.right()))
                .max()
                .orElse(0);
    }

    /** One line a band, and the figures of all. */
    public String table() {
        StringBuilder table = new StringBuilder("given        n   mean  right   +- by chance\n");
        for (Band band : bands) {
            table.append(
                    String.format(
                            Locale.ROOT,
                            "%3.0f-%3.0f %% %5d  %5.1f  %5.1f  %5.1f%n",
                            100 * band.from(),
                            100 * band.to(),
                            band.count(),
                            100 * band.given(),
                            100 * band.right(),
                            100 * band.chance()));
        }
        return table.append(
                        String.format(
                                Locale.ROOT,
                                "calibration error %.3f, Brier %.4f = reliability %.4f - resolution"
                                        + " %.4f + uncertainty %.4f + within bands %.4f%n",
                                calibrationError(),
                                brier,
                                reliability,
                                resolution,
                                uncertainty,
                                within))
                .toString();
    }
}
