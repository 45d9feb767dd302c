package leat.measure;

import leat.signal.Gauge;
import leat.signal.StateReader;
import leat.signal.StateWriter;

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

    void save(StateWriter out) {
        out.putLong(fromMicros);
        out.putLong(toMicros);
        out.putDouble(low);
        out.putDouble(high);
        inlet.save(out);
        boosted.save(out);
        slow.save(out);
        fast.save(out);
    }

    void load(StateReader in) {
        fromMicros = in.getLong();
        toMicros = in.getLong();
        low = in.getDouble();
        high = in.getDouble();
        inlet.load(in);
        boosted.load(in);
        slow.load(in);
        fast.load(in);
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

        void save(StateWriter out) {
            out.putLong(count);
            out.putDouble(from);
            out.putDouble(off);
            out.putDouble(squares);
        }

        void load(StateReader in) {
            count = in.getLong();
            from = in.getDouble();
            off = in.getDouble();
            squares = in.getDouble();
        }
    }
}
