package leat.measure;

import leat.phase.Demand;
import leat.signal.Gauge;
import leat.wire.State;

/** Sums of one second of steady running: cheap to add to, no division per reading. */
final class SteadySecond {
    long fromMicros = Gauge.NEVER;
    long toMicros = Gauge.NEVER;
    double low;
    private double last;
    double high;
    Demand demand = Demand.UNKNOWN;
    final Sum inlet = new Sum();
    final Sum boosted = new Sum();
    final Sum filtered = new Sum();

    /** Squares of the steps from one boosted reading to the next: twice the noise of one. */
    final Sum steps = new Sum();

    final Sum slow = new Sum();
    final Sum fast = new Sum();

    void addBoosted(long atMicros, double psi) {
        low = boosted.count == 0 ? psi : Math.min(low, psi);
        high = boosted.count == 0 ? psi : Math.max(high, psi);
        fromMicros = boosted.count == 0 ? atMicros : fromMicros;
        toMicros = atMicros;
        if (boosted.count > 0) {
            steps.add((psi - last) * (psi - last));
        }
        last = psi;
        boosted.add(psi);
    }

    /** Standard deviation of the boosted readings about their own mean, psi. */
    double swingPsi() {
        return boosted.sd();
    }

    /**
     * Standard deviation of a reading if the steps from one to the next are all noise, psi. A mean
     * of squares is below zero only where a state was taken up that lacks a part of it.
     */
    double noisePsi() {
        return steps.count == 0 ? 0 : Math.sqrt(Math.max(0, steps.mean() / 2));
    }

    /** Likewise of the mean of the second, psi. */
    double noiseOfMeanPsi() {
        return boosted.count == 0 ? 0 : noisePsi() / Math.sqrt(boosted.count);
    }

    void clear() {
        fromMicros = Gauge.NEVER;
        demand = Demand.UNKNOWN;
        inlet.clear();
        boosted.clear();
        filtered.clear();
        steps.clear();
        slow.clear();
        fast.clear();
    }

    void keep(State state) {
        fromMicros = state.keep("fromMicros", fromMicros);
        toMicros = state.keep("toMicros", toMicros);
        low = state.keep("low", low);
        last = state.keep("last", last);
        high = state.keep("high", high);
        demand = state.keep("demand", demand);
        state.part("inlet", inlet::keep);
        state.part("boosted", boosted::keep);
        state.part("filtered", filtered::keep);
        state.part("steps", steps::keep);
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

        double sd() {
            return count < 2
                    ? 0
                    : Math.sqrt(Math.max(0, squares - off * off / count) / (count - 1));
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
