package leat.bench.scenario;

import leat.bench.line.Fault;
import leat.bench.line.FeedLine;
import leat.bench.line.LineSettings;

/**
 * Brings what the house does to the supply into the line, which knows a weak supply only: the line
 * gets the highest supply there can be, and the wander, the dips and the fault take their shares of
 * it. Thread-confined.
 */
final class Supply {

    /** A smaller change is left for later: it is no more than a gauge can show. */
    private static final double LEAST_CHANGE_PSI = 0.05;

    private final House house;
    private final double usualPsi;
    private final LineSettings settings;
    private final long seed;
    private double weakness;
    private double housePsi = Double.NaN;

    Supply(MachineScript script, long seed) {
        house = script.house();
        usualPsi = script.line().supplyPsi();
        settings = new LineSettings(usualPsi + house.wanderPsi(), script.line().setPsi());
        this.seed = seed;
    }

    boolean isQuiet() {
        return house.isQuiet();
    }

    /** How the line is set up. */
    LineSettings settings() {
        return settings;
    }

    /** Lets the house move the line's supply, where it has moved. */
    void follow(FeedLine line, long micros) {
        double psi = house.psi(micros, seed);
        if (!(Math.abs(psi - housePsi) < LEAST_CHANGE_PSI)) {
            apply(line, psi);
        }
    }

    private void apply(FeedLine line, double psi) {
        housePsi = psi;
        double share = (usualPsi + psi) / settings.supplyPsi();
        double left = Math.min(Math.max(share, 0), 1) * (1 - weakness);
        line.strike(Fault.WEAK_SUPPLY, 1 - left);
    }

    /** Takes the fault that it brings in itself; false where it leaves it to the line. */
    boolean takes(Fault fault, double severity, FeedLine line, long micros) {
        if (isQuiet() || fault != Fault.WEAK_SUPPLY) {
            return false;
        }
        weakness = severity;
        apply(line, house.psi(micros, seed));
        return true;
    }
}
