package leat.measure;

import java.util.Optional;
import leat.measure.absence.Absence;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.SecondMeans;
import leat.wire.State;

/**
 * Measures, once after each stop, the pressure that is left with the water shut and how fast it
 * fell there. A stop that is over before it could be measured has the fall alone. Thread-confined.
 */
public final class RestMeter {

    private static final long AT_LAST_MICROS = 60_000_000;
    private static final Figure NO_INLET = Figure.absent(Absence.NO_INLET_GAUGE);
    private static final int SETTLED_SECONDS = 10;

    private final boolean hasInlet;
    private final long armMicros;
    private final double fallingPsiPerSecond;
    private final FallMeter fall = new FallMeter();
    private final LastSeconds inlet = new LastSeconds();
    private final LastSeconds boosted = new LastSeconds();
    private long stopMicros = Gauge.NEVER;

    /**
     * @param armMicros time from the stop until it is measured at the earliest
     * @param fallingPsiPerSecond slower than this the pressure has settled
     * @param hasInlet whether the machine has a gauge before the booster
     */
    public RestMeter(long armMicros, double fallingPsiPerSecond, boolean hasInlet) {
        this.hasInlet = hasInlet;
        this.armMicros = armMicros;
        this.fallingPsiPerSecond = fallingPsiPerSecond;
    }

    /**
     * The booster was stopped.
     *
     * @param before boosted pressure of at least the last seconds, up to now
     */
    public void stopped(long stoppedMicros, Curve before) {
        fall.open(stoppedMicros, before);
    }

    /** The next boosted reading. */
    public void boostedRead(long atMicros, double psi) {
        fall.read(atMicros, psi);
    }

    /** The line has come to rest, or was first seen there. */
    public void open(long stoppedMicros) {
        stopMicros = stoppedMicros;
        inlet.clear();
        boosted.clear();
    }

    /** Event time has jumped. */
    public void drop() {
        stopMicros = Gauge.NEVER;
        fall.drop();
    }

    /**
     * The stop is over, or out of sight: what was seen of it, if it was not measured before.
     *
     * @param because why there is no more of it
     */
    public Optional<RestSpell> end(long atMicros, Absence because) {
        long stoppedMicros = fall.stopMicros();
        boolean isArmed = stopMicros != Gauge.NEVER && atMicros - stopMicros >= armMicros;
        boolean isMeasured = isArmed && !boosted.isEmpty();
        Figure absent = Figure.absent(because);
        Figure fallSeconds = fall.end(because);
        stopMicros = Gauge.NEVER;
        return stoppedMicros == Gauge.NEVER
                ? Optional.empty()
                : Optional.of(
                        new RestSpell(
                                stoppedMicros,
                                atMicros,
                                isMeasured ? boosted.figure() : absent,
                                hasInlet ? isMeasured ? inlet.figure() : absent : NO_INLET,
                                fallSeconds,
                                false));
    }

    /** A second has passed at rest; the measurement when it is due. */
    public Optional<RestSpell> tick(long atMicros, Gauges gauges, SecondMeans boostedSeconds) {
        if (stopMicros == Gauge.NEVER) {
            return Optional.empty();
        }
        inlet.add(gauges.inlet().secondMean());
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
                        hasInlet ? inlet.figure(gauges.inlet().fiveSecondMean()) : NO_INLET,
                        fall.end(Absence.DID_NOT_FALL),
                        settled);
        drop();
        return Optional.of(spell);
    }

    public void keep(State state) {
        state.part("fall", fall::keep);
        stopMicros = state.keep("stopMicros", stopMicros);
        state.part("inlet", inlet::keep);
        state.part("boosted", boosted::keep);
    }
}
