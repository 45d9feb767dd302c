package leat.diagnose;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;

/**
 * Fits the weights of the table's rows to examples: softmax regression over rows, of which those of
 * one cause share it, with a penalty on squares and under the signs of the table. Steps by Adam
 * (Kingma and Ba, 2015), after each of which weights of a wrong sign are set to 0. Deterministic.
 * Thread-confined.
 */
final class SoftmaxFit {

    /** No piece says more, so that no single feature decides alone; own choice. */
    private static final double MOST = 6;

    /** Something that has no row is one of 400 where nothing is odd; own choice. */
    private static final double ODDNESS = -6;

    private static final double PER_ODDITY = 0.25;
    private static final int BATCH = 256;
    private static final double STEP = 0.04;

    /** One example as numbers. */
    private record Point(int cause, double weight, int[] places, double[] values) {}

    private final List<CauseTable.Row> rows = CauseTable.rows();
    private final int inputs = Feature.values().length * Ramps.COUNT + 1;
    private final double[][] w = new double[rows.size()][inputs];
    private final double[][] m = new double[rows.size()][inputs];
    private final double[][] v = new double[rows.size()][inputs];
    private final List<Point> points = new ArrayList<>();
    private final double penalty;
    private final boolean signed;
    private int steps;

    /**
     * @param penalty on the squares of all weights, per example
     * @param signed whether the signs of the table are kept
     */
    SoftmaxFit(double penalty, boolean signed) {
        this.penalty = penalty;
        this.signed = signed;
    }

    void add(Cause cause, double weight, List<Evidence> evidence) {
        int of = cause.ordinal();
        int[] places = new int[evidence.size() * (Ramps.PIECES + 1)];
        double[] values = new double[places.length];
        int n = 0;
        for (Evidence one : evidence) {
            double[] ramps = Ramps.of(one);
            for (int i = 0; i < ramps.length; i++) {
                if (ramps[i] > 0) {
                    places[n] = one.feature().ordinal() * Ramps.COUNT + i;
                    values[n++] = ramps[i];
                }
            }
        }
        points.add(
                new Point(
                        of,
                        weight,
                        java.util.Arrays.copyOf(places, n),
                        java.util.Arrays.copyOf(values, n)));
    }

    int size() {
        return points.size();
    }

    /** Goes over all examples so many times. */
    Weights fit(int rounds, long seed) {
        Random random = new Random(seed);
        for (int r = 1; r < rows.size(); r++) {
            for (int i = 0; i < inputs; i++) {
                w[r][i] = 0.01 * random.nextDouble();
            }
            project(r);
        }
        List<Point> order = new ArrayList<>(points);
        for (int round = 0; round < rounds; round++) {
            Collections.shuffle(order, random);
            double step = STEP * Math.min(1, 2.0 * (rounds - round) / rounds);
            double loss = 0;
            for (int from = 0; from < order.size(); from += BATCH) {
                loss += step(order.subList(from, Math.min(order.size(), from + BATCH)), step);
            }
            if (round % 10 == 9 || round == 0) {
                System.out.printf("round %d: loss %.4f%n", round + 1, loss / points.size());
            }
        }
        return weights();
    }

    private double step(List<Point> batch, double step) {
        double[][] slope = new double[rows.size()][inputs];
        double loss = 0;
        for (Point point : batch) {
            double[] shares = shares(point);
            double own = 1e-12;
            for (int r = 0; r < shares.length; r++) {
                own += isOf(r, point) ? shares[r] : 0;
            }
            loss -= point.weight() * Math.log(own);
            for (int r = 1; r < shares.length; r++) {
                double of = isOf(r, point) ? shares[r] / own : 0;
                double by = point.weight() * (shares[r] - of) / batch.size();
                if (by != 0) {
                    slope[r][inputs - 1] += by;
                    for (int i = 0; i < point.places().length; i++) {
                        slope[r][point.places()[i]] += by * point.values()[i];
                    }
                }
            }
        }
        steps++;
        double first = 1 - Math.pow(0.9, steps);
        double second = 1 - Math.pow(0.999, steps);
        for (int r = 1; r < rows.size(); r++) {
            for (int i = 0; i < inputs; i++) {
                double g = slope[r][i] + (i < inputs - 1 ? penalty * w[r][i] : 0);
                m[r][i] = 0.9 * m[r][i] + 0.1 * g;
                v[r][i] = 0.999 * v[r][i] + 0.001 * g * g;
                w[r][i] -= step * m[r][i] / first / (Math.sqrt(v[r][i] / second) + 1e-8);
            }
            project(r);
        }
        return loss;
    }

    private boolean isOf(int row, Point point) {
        return rows.get(row).cause().ordinal() == point.cause();
    }

    private double[] shares(Point point) {
        double[] scores = new double[rows.size()];
        double best = 0;
        for (int r = 1; r < scores.length; r++) {
            double sum = w[r][inputs - 1];
            for (int i = 0; i < point.places().length; i++) {
                sum += w[r][point.places()[i]] * point.values()[i];
            }
            scores[r] = sum;
            best = Math.max(best, sum);
        }
        double sum = 0;
        for (int r = 0; r < scores.length; r++) {
            scores[r] = Math.exp(scores[r] - best);
            sum += scores[r];
        }
        for (int r = 0; r < scores.length; r++) {
            scores[r] /= sum;
        }
        return scores;
    }

    private void project(int r) {
        for (Feature feature : Feature.values()) {
            CauseTable.Direction direction = rows.get(r).direction(feature);
            for (int piece = 0; piece < Ramps.COUNT; piece++) {
                boolean above = piece < Ramps.PIECES;
                int at = feature.ordinal() * Ramps.COUNT + piece;
                double least = -MOST;
                double most = MOST;
                if (signed) {
                    boolean rises =
                            direction
                                    == (above
                                            ? CauseTable.Direction.UP
                                            : CauseTable.Direction.DOWN);
                    boolean free = direction == CauseTable.Direction.EITHER;
                    least = rises ? 0 : -MOST;
                    most = rises || free ? MOST : 0;
                    if (piece == Ramps.MEASURED) {
                        least = direction == CauseTable.Direction.NOT ? 0 : -MOST;
                        most = 0;
                    }
                }
                w[r][at] = Math.max(least, Math.min(most, w[r][at]));
            }
        }
    }

    private Weights weights() {
        List<Weights.OfRow> all = new ArrayList<>();
        double[][] shown = shown();
        for (int r = 0; r < rows.size(); r++) {
            double[][] pieces = new double[Feature.values().length][];
            for (int f = 0; f < pieces.length; f++) {
                pieces[f] =
                        java.util.Arrays.copyOfRange(w[r], f * Ramps.COUNT, (f + 1) * Ramps.COUNT);
            }
            all.add(new Weights.OfRow(rows.get(r), w[r][inputs - 1], pieces, shown[r]));
        }
        return new Weights(all, 1, 1, ODDNESS, PER_ODDITY);
    }

    /** What each feature says for a row on average where its cause is there. */
    private double[][] shown() {
        double[][] sums = new double[rows.size()][Feature.values().length];
        double[] counts = new double[rows.size()];
        for (Point point : points) {
            double[] shares = shares(point);
            double own = 1e-12;
            for (int r = 0; r < shares.length; r++) {
                own += isOf(r, point) ? shares[r] : 0;
            }
            for (int r = 0; r < shares.length; r++) {
                if (isOf(r, point)) {
                    double of = shares[r] / own;
                    counts[r] += of;
                    for (int i = 0; i < point.places().length; i++) {
                        int at = point.places()[i];
                        sums[r][at / Ramps.COUNT] += of * w[r][at] * point.values()[i];
                    }
                }
            }
        }
        for (int r = 0; r < sums.length; r++) {
            for (int f = 0; f < sums[r].length; f++) {
                sums[r][f] /= Math.max(1, counts[r]);
            }
        }
        return sums;
    }
}
