package leat.measure;

import java.util.Map;
import java.util.Optional;
import leat.phase.Demand;
import leat.phase.DemandFinder;
import leat.signal.Gauge;
import leat.signal.Gauges.Switch;
import leat.signal.Reading;
import leat.signal.TrailingMean;
import leat.wire.State;

/**
 * Measures a run of the booster second by second, from when its level stands. The last seconds are
 * held back: a stop shows only after a moment, and whether water is drawn is known only by the
 * seconds before and after. Thread-confined.
 */
public final class RunMeter {

    private static final int HELD = DemandFinder.LATER_SECONDS + 1;

    /** Steady means start this long after the start of the booster. */
    private static final long STEADY_FROM_MICROS = 13_000_000;

    /** Longer than a stroke, so that a mean of it shows what moves slowly. */
    private static final long SLOW_MICROS = 1_500_000;

    private static final long LEAST_IN_SLOW = 5;

    /** A level loses less from second to second, a line that was stopped more: own model. */
    private static final double SINKING_SHARE = 0.02;

    private final double minInletPsi;
    private final boolean hasInlet;
    private final TrailingMean slow = new TrailingMean(SLOW_MICROS);
    private final SteadySecond[] held = new SteadySecond[HELD];
    private final DemandFinder demand = new DemandFinder();
    private final DemandLevels levels = new DemandLevels();
    private final SteadyMeter steady;
    private final RunSums sums = new RunSums();
    private final Breaks inletBreaks = new Breaks(Measurand.INLET_BREAKS);
    private final Breaks boostedBreaks = new Breaks(Measurand.BOOSTED_BREAKS);
    private long startMicros = Gauge.NEVER;

    /**
     * @param minInletPsi no ratio is measured below this inlet pressure
     * @param hasInlet whether the machine has a gauge before the booster
     */
    public RunMeter(double minInletPsi, boolean hasInlet) {
        this.minInletPsi = minInletPsi;
        this.hasInlet = hasInlet;
        steady = new SteadyMeter(minInletPsi, hasInlet);
        for (int i = 0; i < HELD; i++) {
            held[i] = new SteadySecond();
        }
    }

    /** A run begins, or is first seen. */
    public void open(long startedMicros) {
        startMicros = startedMicros;
        pause();
        sums.clear();
        levels.clear();
        inletBreaks.clear();
        boostedBreaks.clear();
    }

    /** A reading of a run came, BAD or usable. */
    public void came(Reading reading) {
        switch (reading.channel()) {
            case INLET -> inletBreaks.read(reading);
            case BOOSTED -> boostedBreaks.read(reading);
            case FILTERED, RUNNING, VALVE, CUTTING -> {
                // nobody looks for a cause by them
            }
        }
    }

    /** A usable pressure of a run whose level stands. */
    public void read(Reading reading) {
        switch (reading.channel()) {
            case INLET -> held[0].inlet.add(reading.value());
            case FILTERED -> held[0].filtered.add(reading.value());
            case BOOSTED -> boostedRead(reading.atMicros(), reading.value());
            case RUNNING, VALVE, CUTTING -> {
                // no pressure
            }
        }
    }

    private void boostedRead(long atMicros, double psi) {
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
     * @param cutting what the contact of the jet says
     * @return a part of the steady spell when it has become long enough to close one
     */
    public Optional<SteadySpell> tick(Switch cutting) {
        SteadySecond now = held[0];
        Demand was = demand.second(now.boosted.count(), now.swingPsi(), now.noisePsi(), cutting);
        SteadySecond oldest = held[HELD - 1];
        oldest.demand = was;
        levels.add(oldest);
        if (isSinking()) {
            sums.breakOff();
        } else {
            sums.add(oldest);
        }
        Optional<SteadySpell> part =
                oldest.fromMicros >= startMicros + STEADY_FROM_MICROS
                        ? steady.add(oldest)
                        : Optional.empty();
        oldest.clear();
        System.arraycopy(held, 0, held, 1, HELD - 1);
        held[0] = oldest;
        return part;
    }

    /**
     * Each second after the oldest lies well below the one before: without a run signal a stop is
     * told late, and what falls then is no level of the run.
     */
    private boolean isSinking() {
        for (int i = HELD - 1; i > 0; i--) {
            SteadySecond.Sum before = held[i].boosted;
            SteadySecond.Sum after = held[i - 1].boosted;
            boolean sinks =
                    before.count() > 0
                            && after.count() > 0
                            && after.mean() < (1 - SINKING_SHARE) * before.mean();
            if (!sinks) {
                return false;
            }
        }
        return true;
    }

    /**
     * The level stands no more, or sight of it was lost.
     *
     * @return what the steady spell was; empty when it was too short for a mean
     */
    public Optional<SteadySpell> pause() {
        slow.clear();
        for (SteadySecond second : held) {
            second.clear();
        }
        demand.forget();
        sums.breakOff();
        return steady.end();
    }

    /** The last seconds, for rules. */
    public DemandLevels levels() {
        return levels;
    }

    /** When the run began, as far as the phase showed it. */
    public long startMicros() {
        return startMicros;
    }

    /** The run so far. */
    public Run run(long startedMicros, long endedMicros, boolean over) {
        Map<Measurand, Figure> figures = sums.figures(minInletPsi, hasInlet);
        inletBreaks.into(figures);
        boostedBreaks.into(figures);
        return new Run(startedMicros, endedMicros, over, figures);
    }

    public void keep(State state) {
        state.part("slow", slow::keep);
        for (int i = 0; i < HELD; i++) {
            state.part("second" + i, held[i]::keep);
        }
        state.part("demand", demand::keep);
        state.part("levels", levels::keep);
        state.part("steady", steady::keep);
        state.part("sums", sums::keep);
        state.part("inletBreaks", inletBreaks::keep);
        state.part("boostedBreaks", boostedBreaks::keep);
        startMicros = state.keep("startMicros", startMicros);
    }
}
