package leat.segment;

import java.util.Arrays;

/**
 * The numbers of one channel, without the loss of a bit. Three ways: decimal numbers of few digits;
 * levels, where the same numbers come again and again, as from a converter's counts; or any
 * doubles. In each what is written is how far a number is from a {@link Foretold} one.
 */
final class Values {

    static final int LEVELS = 100;
    static final int DOUBLES = 101;
    private static final int MOST_DIGITS = 6;
    private static final double EXACT = 0x1p53;

    /** With more levels than one for so many numbers a list of them costs more than it saves. */
    private static final int NUMBERS_PER_LEVEL = 4;

    private Values() {}

    static void write(double[] values, Sink sink) {
        long[] whole = new long[values.length];
        int digits = decimal(values, whole);
        if (digits >= 0) {
            sink.octet(digits);
            foretold(whole, sink);
            return;
        }
        for (int i = 0; i < values.length; i++) {
            whole[i] = ordered(Double.doubleToRawLongBits(values[i]));
        }
        long[] levels = Arrays.stream(whole).sorted().distinct().toArray();
        if (levels.length * NUMBERS_PER_LEVEL <= values.length) {
            sink.octet(LEVELS);
            sink.number(levels.length);
            long before = 0;
            for (long level : levels) {
                sink.signed(level - before);
                before = level;
            }
            for (int i = 0; i < whole.length; i++) {
                whole[i] = Arrays.binarySearch(levels, whole[i]);
            }
        } else {
            sink.octet(DOUBLES);
        }
        foretold(whole, sink);
    }

    /** Digits after the point with which all are whole and come back; -1 where none do. */
    private static int decimal(double[] values, long[] whole) {
        double scale = 1;
        for (int digits = 0; digits <= MOST_DIGITS; digits++, scale *= 10) {
            int i = 0;
            while (i < values.length) {
                double scaled = Math.rint(values[i] * scale);
                whole[i] = (long) scaled;
                if (!(Math.abs(scaled) < EXACT)
                        || Double.doubleToRawLongBits(whole[i] / scale)
                                != Double.doubleToRawLongBits(values[i])) {
                    break;
                }
                i++;
            }
            if (i == values.length) {
                return digits;
            }
        }
        return -1;
    }

    private static void foretold(long[] numbers, Sink sink) {
        long[] best = {};
        int bestWeight = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int weight = 0; weight <= Foretold.HEAVIEST; weight++) {
            Foretold foretold = new Foretold(weight);
            long[] residuals = Arrays.stream(numbers).map(foretold::residual).toArray();
            double cost = Foretold.cost(residuals);
            if (cost < least) {
                least = cost;
                best = residuals;
                bestWeight = weight;
            }
        }
        sink.octet(bestWeight);
        for (long residual : best) {
            sink.signed(residual);
        }
    }

    /** Bits of doubles as whole numbers in the order of the doubles; its own inverse. */
    static long ordered(long bits) {
        return bits ^ bits >> 63 & Long.MAX_VALUE;
    }

    /** The numbers one by one. */
    static Next reader(Source source) {
        if (!source.hasMore()) {
            return () -> source.octet();
        }
        int way = source.octet();
        if (way == LEVELS) {
            return new Levels(source);
        }
        if (way > MOST_DIGITS && way != DOUBLES) {
            throw new Source.Amiss("it has numbers of the unknown way " + way);
        }
        Foretold foretold = new Foretold(source.octet());
        if (way == DOUBLES) {
            return () -> Double.longBitsToDouble(ordered(foretold.number(source.signed())));
        }
        double scale = Math.rint(Math.pow(10, way));
        return () -> foretold.number(source.signed()) / scale;
    }

    /** Hands out one number after the other. */
    @FunctionalInterface
    interface Next {
        double value();
    }

    private static final class Levels implements Next {
        private final Source source;
        private final double[] levels;
        private final Foretold foretold;

        Levels(Source source) {
            this.source = source;
            levels = new double[source.count(source.left())];
            long level = 0;
            for (int i = 0; i < levels.length; i++) {
                level += source.signed();
                levels[i] = Double.longBitsToDouble(ordered(level));
            }
            foretold = new Foretold(source.octet());
        }

        @Override
        public double value() {
            long level = foretold.number(source.signed());
            if (level < 0 || level >= levels.length) {
                throw new Source.Amiss("it names a level that it does not have");
            }
            return levels[(int) level];
        }
    }
}
