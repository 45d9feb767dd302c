package leat.measure;

import java.util.Optional;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.SecondMeans;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * Measures, once after each stop, the pressure that is left with the water shut. Thread-confined.
 */
public final class RestMeter {

    private static final long AT_LAST_MICROS = 60_000_000;
    private static final int SETTLED_SECONDS = 10;

    private final long armMicros;
    private final double fallingPsiPerSecond;
    private long stopMicros = Gauge.NEVER;

    /**
     * @param armMicros time from the stop until it is measured at the earliest
     * @param fallingPsiPerSecond slower than this the pressure has settled
     */
    public RestMeter(long armMicros, double fallingPsiPerSecond) {
        this.armMicros = armMicros;
        this.fallingPsiPerSecond = fallingPsiPerSecond;
    }

    /** The booster has stopped, or the line was first seen at rest. */
    public void open(long stoppedMicros) {
        stopMicros = stoppedMicros;
    }

    /** The rest is over before it could be measured. */
    public void drop() {
        stopMicros = Gauge.NEVER;
    }

    /** A second has passed at rest; the measurement when it is due. */
    public Optional<RestSpell> tick(long atMicros, Gauges gauges, SecondMeans boostedSeconds) {
        if (stopMicros == Gauge.NEVER || atMicros - stopMicros < armMicros) {
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
                        Figure.of(gauges.boosted().fiveSecondMean()),
                        Figure.of(gauges.inlet().fiveSecondMean()),
                        Figure.absent("not measured yet"),
                        settled);
        drop();
        return Optional.of(spell);
    }

    public void save(StateWriter out) {
        out.putLong(stopMicros);
    }

    public void load(StateReader in) {
        stopMicros = in.getLong();
    }
}
