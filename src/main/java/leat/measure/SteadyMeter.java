package leat.measure;

import java.util.Optional;
import leat.measure.absence.Absence;
import leat.wire.State;

/**
 * Means of a stretch of steady running, the ripple of the strokes and the slow wander.
 * Thread-confined.
 */
final class SteadyMeter {

    private static final long PART_MICROS = 15L * 60 * 1_000_000;
    private static final long LEAST_READINGS = 5;
    private static final long LEAST_SECONDS = 10;

    private final double minInletPsi;
    private final boolean hasInlet;
    private final SteadySums spell = new SteadySums();

    /**
     * @param minInletPsi no ratio is measured below this inlet pressure
     * @param hasInlet whether the machine has a gauge before the booster
     */
    SteadyMeter(double minInletPsi, boolean hasInlet) {
        this.hasInlet = hasInlet;
        this.minInletPsi = minInletPsi;
    }

    /**
     * A second of steady running.
     *
     * @return a part of the spell when it has become long enough to close one
     */
    Optional<SteadySpell> add(SteadySecond second) {
        spell.add(second);
        return spell.toMicros - spell.fromMicros >= PART_MICROS ? part() : Optional.empty();
    }

    /** The spell is over; empty when it was too short for a mean. */
    Optional<SteadySpell> end() {
        Optional<SteadySpell> last = part();
        spell.clear();
        return last;
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
                : Figure.of(all.mean(), seconds.doubtOfMean());
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

    void keep(State state) {
        spell.keep(state);
    }
}
