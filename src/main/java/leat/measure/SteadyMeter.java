package leat.measure;

import java.util.Optional;
import leat.measure.absence.Absence;
import leat.signal.TrailingMean;
import leat.wire.State;

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
    private final boolean hasInlet;
    private final TrailingMean slow = new TrailingMean(SLOW_MICROS);
    private final SteadySums spell = new SteadySums();
    private final SteadySecond[] held = new SteadySecond[HELD_SECONDS];

    /**
     * @param minInletPsi no ratio is measured below this inlet pressure
     * @param hasInlet whether the machine has a gauge before the booster
     */
    public SteadyMeter(double minInletPsi, boolean hasInlet) {
        this.hasInlet = hasInlet;
        this.minInletPsi = minInletPsi;
        for (int i = 0; i < HELD_SECONDS; i++) {
            held[i] = new SteadySecond();
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
        SteadySecond oldest = held[HELD_SECONDS - 1];
        spell.add(oldest);
        oldest.clear();
        System.arraycopy(held, 0, held, 1, HELD_SECONDS - 1);
        held[0] = oldest;
        return spell.toMicros - spell.fromMicros >= PART_MICROS ? part() : Optional.empty();
    }

    /** The spell is over; empty when it was too short for a mean. */
    public Optional<SteadySpell> end() {
        Optional<SteadySpell> last = part();
        clear();
        return last;
    }

    public void clear() {
        spell.clear();
        slow.clear();
        for (SteadySecond second : held) {
            second.clear();
        }
    }

    private Optional<SteadySpell> part() {
        if (spell.boosted.count() < LEAST_READINGS || hasInlet && spell.inlet.count() == 0) {
            return Optional.empty();
        }
        Figure inlet =
                hasInlet
                        ? mean(spell.inlet, spell.inletSeconds)
                        : Figure.absent(Absence.NO_INLET_GAUGE);
        Figure boosted = mean(spell.boosted, spell.boostedSeconds);
        SteadySpell part =
                new SteadySpell(
                        spell.fromMicros,
                        spell.toMicros,
                        spell.boosted.count(),
                        inlet,
                        boosted,
                        Figure.of(spell.low),
                        Figure.of(spell.high),
                        ratio(boosted, inlet),
                        ripple(),
                        wander());
        spell.clear();
        return Optional.of(part);
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
        if (!inlet.isPresent()) {
            return inlet;
        }
        return inlet.get() < minInletPsi
                ? Figure.absent(Absence.INLET_TOO_LOW)
                : boosted.over(inlet);
    }

    /** Each second counts as one independent look at the ripple: strokes come about as often. */
    private Figure ripple() {
        long seconds = spell.boostedSeconds.count();
        if (spell.fast.count() < 2 || seconds < LEAST_SECONDS) {
            return Figure.absent(tooShort());
        }
        double sd = spell.fast.sd();
        return Figure.of(sd, StudentT.factor95(seconds - 1) * sd / Math.sqrt(2.0 * seconds));
    }

    private Figure wander() {
        return spell.slow.count() < 2 || spell.boostedSeconds.count() < LEAST_SECONDS
                ? Figure.absent(tooShort())
                : Figure.of(spell.slow.sd());
    }

    private Absence tooShort() {
        return spell.boostedSeconds.count() < LEAST_SECONDS
                ? Absence.STEADY_TOO_SHORT
                : Absence.TOO_SLOW_TO_SEE_STROKES;
    }

    public void keep(State state) {
        state.part("slow", slow::keep);
        state.part("spell", spell::keep);
        for (int i = 0; i < HELD_SECONDS; i++) {
            state.part("second" + i, held[i]::keep);
        }
    }
}
