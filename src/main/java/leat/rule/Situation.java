package leat.rule;

import leat.measure.DemandLevels;
import leat.phase.Phase;
import leat.signal.Gauges;
import leat.signal.SecondMeans;

/**
 * What a rule may look at when a second has passed. Valid only during that tick.
 *
 * @param atMicros the tick, microseconds UTC
 * @param phase what the feed line is doing
 * @param inDoubt whether it runs only for want of a sign that it has stopped
 * @param startMicros when the booster was started
 * @param stopMicros when it stopped, or when the water was last opened without it
 * @param gauges the machine's gauges
 * @param boostedSeconds the boosted pressure's last seconds
 * @param levels the last seconds of the run, apart for jet on and jet off
 */
public record Situation(
        long atMicros,
        Phase phase,
        boolean inDoubt,
        long startMicros,
        long stopMicros,
        Gauges gauges,
        SecondMeans boostedSeconds,
        DemandLevels levels) {

    boolean hasRunFor(long micros) {
        return phase.isRunning() && atMicros - startMicros >= micros;
    }

    /** Steady, and so long after the start: what the start itself shows is judged as an event. */
    boolean isSteadyFor(long micros) {
        return phase == Phase.STEADY && hasRunFor(micros);
    }

    boolean hasRestedFor(long micros) {
        return phase == Phase.REST && atMicros - stopMicros >= micros;
    }
}
