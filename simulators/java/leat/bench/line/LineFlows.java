package leat.bench.line;

/**
 * Flows in the line at one moment, m3/s, worked out from its state. Reused from one evaluation to
 * the next, so that the equations make no garbage; thread-confined.
 */
final class LineFlows {

    double valve;
    double boosted;
    double bypassed;
    double filtered;
    double drawn;
    double bled;
    double leaked;

    /** Works the flows out. */
    void at(double now, double[] y, Plumbing parts) {
        double suction = y[Slot.SUCTION];
        double lift = y[Slot.BOOSTED] - suction;
        valve = parts.valve.flow(y[Slot.INLET] - suction, now);
        boosted = parts.booster.flow(y[Slot.PUMP], lift, parts.suction.filled(suction));
        bypassed = parts.regulator.flow(y[Slot.LIFT], lift);
        filtered = parts.filters.flow(y[Slot.BOOSTED] - y[Slot.FILTERED]);
        drawn = parts.intensifier.flow(y[Slot.LOAD], y[Slot.FILTERED], now);
        bled = parts.sequence.isRunning() ? 0 : parts.openings.bled(y[Slot.FILTERED]);
        leaked = parts.openings.leaked(y[Slot.BOOSTED]);
    }
}
