package leat.measure;

import leat.signal.Gauge;
import leat.wire.State;

/** Sums of one second of steady running: cheap to add to, no division per reading. */
final class SteadySecond {
    long fromMicros = Gauge.NEVER;
    long toMicros = Gauge.NEVER;
    double low;
    double high;
    final Sum inlet = new Sum();
    final Sum boosted = new Sum();
    final Sum slow = new Sum();
    final Sum fast = new Sum();

    void addBoosted(long atMicros, double psi) {
        low = boosted.count == 0 ? psi : Math.min(low, psi);
        high = boosted.count == 0 ? psi : Math.max(high, psi);
        fromMicros = boosted.count == 0 ? atMicros : fromMicros;
        toMicros = atMicros;
        boosted.add(psi);
    }

    void clear() {
        inlet.clear();
        boosted.clear();
        slow.clear();
        fast.clear();
    }

    void keep(State state) {
        fromMicros = state.keep("fromMicros", fromMicros);
        toMicros = state.keep("toMicros", toMicros);
        low = state.keep("low", low);
        high = state.keep("high", high);
        state.part("inlet", inlet::keep);
        state.part("boosted", boosted::keep);
        state.part("slow", slow::keep);
        state.part("fast", fast::keep);
    }

    /** Values summed as differences from the first of them, which keeps their digits. */
    static final class Sum {
        private long count;
        private double from;
        private double off;
        private double squares;

        void add(double value) {
            from = count == 0 ? value : from;
            double difference = value - from;
            count++;
            off += difference;
            squares += difference * difference;
        }

        long count() {
            return count;
        }

        double mean() {
            return from + off / count;
        }

        void into(Moments moments) {
            moments.addAll(count, from, off, squares);
        }

        void clear() {
            count = 0;
            from = 0;
            off = 0;
            squares = 0;
        }

        void keep(State state) {
            count = state.keep("count", count);
            from = state.keep("from", from);
            off = state.keep("off", off);
            squares = state.keep("squares", squares);
        }
    }
}
