package leat.segment;

import java.util.Arrays;

/**
 * The numbers of one channel, without the loss of a bit. Three ways: decimal numbers of few digits;
 * levels, where the same numbers come again and again, as from a converter's counts; or any
 * doubles. In each what is written is the way from one number to the next.
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
            steps(whole, sink);
            return;
        }
        for (int i = 0; i < values.length; i++) {
            whole[i] = ordered(Double.doubleToRawLongBits(values[i]));
        }
        long[] levels = Arrays.stream(whole).sorted().distinct().toArray();
        if (levels.length * NUMBERS_PER_LEVEL <= values.length) {
            sink.octet(LEVELS);
            sink.number(levels.length);
            steps(levels, sink);
            for (int i = 0; i < whole.length; i++) {
                whole[i] = Arrays.binarySearch(levels, whole[i]);
            }
        } else {
            sink.octet(DOUBLES);
        }
        steps(whole, sink);
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

    private static void steps(long[] numbers, Sink sink) {
        long before = 0;
        for (long number : numbers) {
            sink.signed(number - before);
            before = number;
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
        long[] last = {0};
        if (way <= MOST_DIGITS) {
            double scale = 1;
            for (int digit = 0; digit < way; digit++) {
                scale *= 10;
            }
            return new Decimals(source, scale);
        }
        if (way == DOUBLES) {
            return () -> Double.longBitsToDouble(ordered(last[0] += source.signed()));
        }
        if (way != LEVELS) {
            throw new Source.Amiss("it has numbers of the unknown way " + way);
        }
        return new Levels(source);
    }

    /** Hands out one number after the other. */
    @FunctionalInterface
    interface Next {
        double value();
    }

    private static final class Decimals implements Next {
        private final Source source;
        private final double scale;
        private long last;

        Decimals(Source source, double scale) {
            this.source = source;
            this.scale = scale;
        }

        @Override
        public double value() {
            last += source.signed();
            return last / scale;
        }
    }

    private static final class Levels implements Next {
        private final Source source;
        private final double[] levels;
        private long last;

        Levels(Source source) {
            this.source = source;
            levels = new double[source.count(source.left())];
            long level = 0;
            for (int i = 0; i < levels.length; i++) {
                level += source.signed();
                levels[i] = Double.longBitsToDouble(ordered(level));
            }
        }

        @Override
        public double value() {
            last += source.signed();
            if (last < 0 || last >= levels.length) {
                throw new Source.Amiss("it names a level that it does not have");
            }
            return levels[(int) last];
        }
    }
}
