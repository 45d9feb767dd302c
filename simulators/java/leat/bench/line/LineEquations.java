package leat.bench.line;

import org.hipparchus.ode.OrdinaryDifferentialEquation;

/**
 * How fast everything in the line changes: what flows in less what flows out, over what gives way.
 * Time runs from {@link #beginAt}, so that a line that is years old is integrated as precisely as a
 * new one. The only garbage is the vector that is returned, which the solver keeps.
 * Thread-confined.
 */
final class LineEquations implements OrdinaryDifferentialEquation {

    private final Plumbing parts;
    private final LineFlows flows = new LineFlows();
    private double began;

    LineEquations(Plumbing parts) {
        this.parts = parts;
    }

    /** Puts time 0 of the equations at a moment of the line. */
    void beginAt(double seconds) {
        began = seconds;
    }

    @Override
    public int getDimension() {
        return Slot.COUNT;
    }

    @Override
    public double[] computeDerivatives(double t, double[] y) {
        double now = began + t;
        double[] rate = new double[Slot.COUNT];
        flows.at(now, y, parts);
        water(now, y, rate);
        machine(now, y, rate);
        return rate;
    }

    private void water(double now, double[] y, double[] rate) {
        double supplied = y[Slot.SUPPLY_FLOW];
        double inlet = y[Slot.INLET];
        double source = parts.supply.pressure(now);
        rate[Slot.SUPPLY_FLOW] = parts.supplyLine.acceleration(supplied, source, inlet);
        rate[Slot.INLET] = (supplied - flows.valve) / parts.inletGive;
        rate[Slot.SUCTION] = (flows.valve - flows.boosted + flows.bypassed) / parts.suctionGive;
        double air = y[Slot.AIR];
        double boosted = y[Slot.BOOSTED];
        double filtered = y[Slot.FILTERED];
        double carriedOff = parts.air.carriedOff(air, flows.drawn);
        double drainedIn = resting(now) ? parts.air.drainedIn(air, filtered) : 0;
        double squeezedBefore = Air.LAW.squeezed(boosted);
        double squeezedBehind = Air.LAW.squeezed(filtered);
        double before = Air.BEFORE_FILTERS * squeezedBefore;
        double behind = Air.IN_FILTERS * squeezedBehind;
        double stays = flows.boosted - flows.bypassed - flows.filtered - flows.leaked;
        rate[Slot.BOOSTED] =
                (stays - carriedOff * before)
                        / give(
                                parts.boostedGive,
                                Air.BEFORE_FILTERS * air,
                                boosted,
                                squeezedBefore);
        rate[Slot.FILTERED] =
                (flows.filtered - flows.drawn - flows.bled - carriedOff * behind)
                        / give(parts.filteredGive, Air.IN_FILTERS * air, filtered, squeezedBehind);
        rate[Slot.AIR] = drainedIn - carriedOff;
        rate[Slot.TAKEN] = supplied;
        rate[Slot.DRAWN] = flows.drawn;
        rate[Slot.BLED] = flows.bled;
        rate[Slot.LEAKED] = flows.leaked;
        rate[Slot.DRAINED] = drainedIn * (before + behind);
    }

    private void machine(double now, double[] y, double[] rate) {
        double pump = y[Slot.PUMP];
        double lift = y[Slot.BOOSTED] - y[Slot.SUCTION];
        double grip = parts.coupling.grip(lift);
        double load = grip * parts.booster.torque(pump, lift);
        double motor = y[Slot.MOTOR];
        rate[Slot.MOTOR] = Motor.acceleration(motor, parts.sequence.isContactorClosed(), load);
        rate[Slot.PUMP] = (grip * motor / Motor.NOMINAL - pump) / Coupling.TAKE_UP_SECONDS;
        rate[Slot.LIFT] =
                parts.regulator.lifting(y[Slot.LIFT], y[Slot.BOOSTED], y[Slot.SUCTION], now);
        rate[Slot.LOAD] = parts.intensifier.loading(y[Slot.LOAD]);
        rate[Slot.PISTON] = parts.intensifier.piston(flows.drawn);
    }

    private boolean resting(double now) {
        return !parts.sequence.isRunning() && parts.valve.position(now) == 0;
    }

    /** How much water a rise of 1 Pa takes in, m3: what the hose gives and the air yields. */
    private static double give(double hose, double air, double pressure, double squeezed) {
        return hose + air * Air.LAW.compliance(pressure, squeezed);
    }
}
