package leat.measure;

import java.util.Optional;
import leat.signal.Gauge;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * Means of a stretch of steady running. The last seconds are held back, so that a stop that shows
 * only after a moment does not spoil them. Thread-confined.
 */
public final class SteadyMeter {

    private static final int HELD_SECONDS = 3;
    private static final long PART_MICROS = 15L * 60 * 1_000_000;
    private static final long LEAST_READINGS = 5;

    private final double minInletPsi;
    private final Sums sums = new Sums();
    private final Sums[] held = new Sums[HELD_SECONDS];

    /**
     * @param minInletPsi no ratio is measured below this inlet pressure
     */
    public SteadyMeter(double minInletPsi) {
        this.minInletPsi = minInletPsi;
        for (int i = 0; i < HELD_SECONDS; i++) {
            held[i] = new Sums();
        }
    }

    public void inletRead(double psi) {
        held[0].addInlet(psi);
    }

    public void boostedRead(long atMicros, double psi) {
        held[0].addBoosted(atMicros, psi);
    }

    /**
     * A second has passed.
     *
     * @return a part of the spell when it has become long enough to close one
     */
    public Optional<SteadySpell> tick() {
        Sums oldest = held[HELD_SECONDS - 1];
        sums.addAll(oldest);
        oldest.clear();
        System.arraycopy(held, 0, held, 1, HELD_SECONDS - 1);
        held[0] = oldest;
        return sums.toMicros - sums.fromMicros >= PART_MICROS ? part() : Optional.empty();
    }

    /** The spell is over; empty when it was too short for a mean. */
    public Optional<SteadySpell> end() {
        Optional<SteadySpell> spell = part();
        clear();
        return spell;
    }

    public void clear() {
        sums.clear();
        for (Sums second : held) {
            second.clear();
        }
    }

    private Optional<SteadySpell> part() {
        if (sums.boostedCount < LEAST_READINGS || sums.inletCount == 0) {
            return Optional.empty();
        }
        double boosted = sums.boostedSum / sums.boostedCount;
        double inlet = sums.inletSum / sums.inletCount;
        SteadySpell spell =
                new SteadySpell(
                        sums.fromMicros,
                        sums.toMicros,
                        sums.boostedCount,
                        Figure.of(inlet),
                        Figure.of(boosted),
                        Figure.of(sums.low),
                        Figure.of(sums.high),
                        inlet < minInletPsi
                                ? Figure.absent("the inlet pressure is too low to divide by")
                                : Figure.of(boosted / inlet),
                        Figure.absent("not measured yet"),
                        Figure.absent("not measured yet"));
        sums.clear();
        return Optional.of(spell);
    }

    public void save(StateWriter out) {
        sums.save(out);
        for (Sums second : held) {
            second.save(out);
        }
    }

    public void load(StateReader in) {
        sums.load(in);
        for (Sums second : held) {
            second.load(in);
        }
    }

    /** What a mean is made of. */
    private static final class Sums {
        private long fromMicros = Gauge.NEVER;
        private long toMicros = Gauge.NEVER;
        private long inletCount;
        private double inletSum;
        private long boostedCount;
        private double boostedSum;
        private double low;
        private double high;

        void addInlet(double psi) {
            inletCount++;
            inletSum += psi;
        }

        void addBoosted(long atMicros, double psi) {
            low = boostedCount == 0 ? psi : Math.min(low, psi);
            high = boostedCount == 0 ? psi : Math.max(high, psi);
            fromMicros = boostedCount == 0 ? atMicros : fromMicros;
            toMicros = atMicros;
            boostedCount++;
            boostedSum += psi;
        }

        void addAll(Sums other) {
            inletCount += other.inletCount;
            inletSum += other.inletSum;
            if (other.boostedCount == 0) {
                return;
            }
            low = boostedCount == 0 ? other.low : Math.min(low, other.low);
            high = boostedCount == 0 ? other.high : Math.max(high, other.high);
            fromMicros = boostedCount == 0 ? other.fromMicros : fromMicros;
            toMicros = other.toMicros;
            boostedCount += other.boostedCount;
            boostedSum += other.boostedSum;
        }

        void clear() {
            fromMicros = Gauge.NEVER;
            toMicros = Gauge.NEVER;
            inletCount = 0;
            inletSum = 0;
            boostedCount = 0;
            boostedSum = 0;
            low = 0;
            high = 0;
        }

        void save(StateWriter out) {
            out.putLong(fromMicros);
            out.putLong(toMicros);
            out.putLong(inletCount);
            out.putDouble(inletSum);
            out.putLong(boostedCount);
            out.putDouble(boostedSum);
            out.putDouble(low);
            out.putDouble(high);
        }

        void load(StateReader in) {
            fromMicros = in.getLong();
            toMicros = in.getLong();
            inletCount = in.getLong();
            inletSum = in.getDouble();
            boostedCount = in.getLong();
            boostedSum = in.getDouble();
            low = in.getDouble();
            high = in.getDouble();
        }
    }
}
