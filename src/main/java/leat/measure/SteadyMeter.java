package leat.measure;

import java.util.Optional;
import leat.signal.Gauge;
import leat.signal.StateReader;
import leat.signal.StateWriter;
import leat.signal.TrailingMean;

/**
 * Means of a stretch of steady running, the ripple of the strokes and the slow wander. The last
 * seconds are held back, so that a stop that shows only after a moment does not spoil them.
 * Thread-confined.
 */
public final class SteadyMeter {

    private static final int HELD_SECONDS = 3;
    private static final long PART_MICROS = 15L * 60 * 1_000_000;
    private static final long LEAST_READINGS = 5;

    /** Longer than a stroke, so that a mean of it shows what moves slowly. */
    private static final long SLOW_MICROS = 1_500_000;

    private static final long LEAST_IN_SLOW = 5;
    private static final long LEAST_SECONDS = 10;

    private final double minInletPsi;
    private final TrailingMean slow = new TrailingMean(SLOW_MICROS);
    private final Sums sums = new Sums();
    private final Sums[] held = new Sums[HELD_SECONDS];

    /** Means of each second counted, whose scatter shows how far the mean of all can be trusted. */
    private final Moments inletSeconds = new Moments();

    private final Moments boostedSeconds = new Moments();

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
        held[0].inlet.add(psi);
    }

    public void boostedRead(long atMicros, double psi) {
        slow.add(atMicros, psi);
        held[0].addBoosted(atMicros, psi);
        if (slow.size() >= LEAST_IN_SLOW) {
            held[0].slow.add(slow.mean());
            held[0].fast.add(psi - slow.mean());
        }
    }

    /**
     * A second has passed.
     *
     * @return a part of the spell when it has become long enough to close one
     */
    public Optional<SteadySpell> tick() {
        Sums oldest = held[HELD_SECONDS - 1];
        sums.addAll(oldest);
        if (oldest.inlet.count() > 0) {
            inletSeconds.add(oldest.inlet.mean());
        }
        if (oldest.boosted.count() > 0) {
            boostedSeconds.add(oldest.boosted.mean());
        }
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
        clearCounted();
        slow.clear();
        for (Sums second : held) {
            second.clear();
        }
    }

    private void clearCounted() {
        sums.clear();
        inletSeconds.clear();
        boostedSeconds.clear();
    }

    private Optional<SteadySpell> part() {
        if (sums.boosted.count() < LEAST_READINGS || sums.inlet.count() == 0) {
            return Optional.empty();
        }
        Figure inlet = mean(sums.inlet, inletSeconds);
        Figure boosted = mean(sums.boosted, boostedSeconds);
        SteadySpell spell =
                new SteadySpell(
                        sums.fromMicros,
                        sums.toMicros,
                        sums.boosted.count(),
                        inlet,
                        boosted,
                        Figure.of(sums.low),
                        Figure.of(sums.high),
                        ratio(boosted, inlet),
                        ripple(),
                        wander());
        clearCounted();
        return Optional.of(spell);
    }

    private static Figure mean(Moments all, Moments seconds) {
        return seconds.count() < 2
                ? Figure.of(all.mean())
                : Figure.of(
                        all.mean(),
                        StudentT.factor95(seconds.count() - 1)
                                * seconds.sd()
                                / Math.sqrt(seconds.count()));
    }

    private Figure ratio(Figure boosted, Figure inlet) {
        return inlet.get() < minInletPsi
                ? Figure.absent("the inlet pressure is too low to divide by")
                : boosted.over(inlet);
    }

    /** Each second counts as one independent look at the ripple: strokes come about as often. */
    private Figure ripple() {
        long seconds = boostedSeconds.count();
        if (sums.fast.count() < 2 || seconds < LEAST_SECONDS) {
            return Figure.absent(tooShort());
        }
        double sd = sums.fast.sd();
        return Figure.of(sd, StudentT.factor95(seconds - 1) * sd / Math.sqrt(2.0 * seconds));
    }

    private Figure wander() {
        return sums.slow.count() < 2 || boostedSeconds.count() < LEAST_SECONDS
                ? Figure.absent(tooShort())
                : Figure.of(sums.slow.sd());
    }

    private String tooShort() {
        return boostedSeconds.count() < LEAST_SECONDS
                ? "steady for less than 10 s"
                : "sampled too slowly to see strokes";
    }

    public void save(StateWriter out) {
        slow.save(out);
        inletSeconds.save(out);
        boostedSeconds.save(out);
        sums.save(out);
        for (Sums second : held) {
            second.save(out);
        }
    }

    public void load(StateReader in) {
        slow.load(in);
        inletSeconds.load(in);
        boostedSeconds.load(in);
        sums.load(in);
        for (Sums second : held) {
            second.load(in);
        }
    }

    /** What the figures are made of. */
    private static final class Sums {
        private long fromMicros = Gauge.NEVER;
        private long toMicros = Gauge.NEVER;
        private double low;
        private double high;
        private final Moments inlet = new Moments();
        private final Moments boosted = new Moments();
        private final Moments slow = new Moments();
        private final Moments fast = new Moments();

        void addBoosted(long atMicros, double psi) {
            low = boosted.count() == 0 ? psi : Math.min(low, psi);
            high = boosted.count() == 0 ? psi : Math.max(high, psi);
            fromMicros = boosted.count() == 0 ? atMicros : fromMicros;
            toMicros = atMicros;
            boosted.add(psi);
        }

        void addAll(Sums other) {
            inlet.addAll(other.inlet);
            if (other.boosted.count() == 0) {
                return;
            }
            low = boosted.count() == 0 ? other.low : Math.min(low, other.low);
            high = boosted.count() == 0 ? other.high : Math.max(high, other.high);
            fromMicros = boosted.count() == 0 ? other.fromMicros : fromMicros;
            toMicros = other.toMicros;
            boosted.addAll(other.boosted);
            slow.addAll(other.slow);
            fast.addAll(other.fast);
        }

        void clear() {
            fromMicros = Gauge.NEVER;
            toMicros = Gauge.NEVER;
            low = 0;
            high = 0;
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
    }
}
