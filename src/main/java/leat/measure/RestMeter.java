package leat.measure;

import java.util.Optional;
import leat.measure.absence.Absence;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.SecondMeans;
import leat.wire.State;

/**
 * Measures, once after each stop, the pressure that is left with the water shut. Thread-confined.
 */
public final class RestMeter {

    private static final long AT_LAST_MICROS = 60_000_000;
    private static final int SETTLED_SECONDS = 10;

    private final long armMicros;
    private final double fallingPsiPerSecond;
    private final FallMeter fall;
    private final LastSeconds inlet = new LastSeconds();
    private final LastSeconds boosted = new LastSeconds();
    private long stopMicros = Gauge.NEVER;

    /**
     * @param armMicros time from the stop until it is measured at the earliest
     * @param fallingPsiPerSecond slower than this the pressure has settled
     * @param fall has watched the pressure since the stop
     */
    public RestMeter(long armMicros, double fallingPsiPerSecond, FallMeter fall) {
        this.fall = fall;
        this.armMicros = armMicros;
        this.fallingPsiPerSecond = fallingPsiPerSecond;
    }

    /** The booster has stopped, or the line was first seen at rest. */
    public void open(long stoppedMicros) {
        stopMicros = stoppedMicros;
        inlet.clear();
        boosted.clear();
    }

    /** The rest is over before it could be measured. */
    public void drop() {
        stopMicros = Gauge.NEVER;
    }

    /** A second has passed at rest; the measurement when it is due. */
    public Optional<RestSpell> tick(long atMicros, Gauges gauges, SecondMeans boostedSeconds) {
        if (stopMicros == Gauge.NEVER) {
            return Optional.empty();
        }
        if (gauges.hasInlet()) {
            inlet.add(gauges.inlet().secondMean());
        }
        boosted.add(gauges.boosted().secondMean());
        if (atMicros - stopMicros < armMicros) {
            return Optional.empty();
        }
        boolean settled = boostedSeconds.fallPerSecond(SETTLED_SECONDS) < fallingPsiPerSecond;
        if (!settled && atMicros - stopMicros < AT_LAST_MICROS) {
            return Optional.empty();
        }
        RestSpell spell =
                new RestSpell(
                        stopMicros,
                        atMicros,
                        boosted.figure(gauges.boosted().fiveSecondMean()),
                        gauges.hasInlet()
                                ? inlet.figure(gauges.inlet().fiveSecondMean())
                                : Figure.absent(Absence.NO_INLET_GAUGE),
                        fall.end(),
                        settled);
        drop();
        return Optional.of(spell);
    }

    public void keep(State state) {
        stopMicros = state.keep("stopMicros", stopMicros);
        state.part("inlet", inlet::keep);
        state.part("boosted", boosted::keep);
    }
}
